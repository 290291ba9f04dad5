export { METHOD_WORDS as METHODS } from '#lib/buyer/input.ts';
