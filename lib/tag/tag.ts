/** Export tags: reading one, reading a list or a range, and deciding whether a lot bears what it must. */
export { decideTags, type LotTag, type TagCheck, type TagFault, type TagFaultCode } from './check.ts';
export { expandTags, MOST_TAGS } from './list.ts';
export { parseTag } from './number.ts';
