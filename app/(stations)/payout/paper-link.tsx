export { PaperLink } from '#app/ui/paper-link.tsx';
