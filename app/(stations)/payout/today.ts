export { today } from '#app/today.ts';
