// The entry of a paper worker. Plain JavaScript, because Node starts it by its path; it lets the rest be TypeScript.
import { register } from 'tsx/esm/api';

register();
await import('./work.ts');
