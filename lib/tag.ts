/** Export tags: reading one, reading a list or a range, and deciding whether a lot bears what it must. */
export { decideTags, type LotTag, type TagCheck, type TagFault, type TagFaultCode } from '#lib/tag-check.ts';
export { expandTags, MOST_TAGS } from '#lib/tag-list.ts';
export { parseTag } from '#lib/tag-number.ts';
