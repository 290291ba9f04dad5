/** What becomes of one tag of a called lot. Its other tags, and their order, stay as the hammer found them. */
import { and, eq } from 'drizzle-orm';
import { parseTag } from '#lib/tag.ts';
import type { Scene } from '../command.ts';
import type { TagRow } from '../queries/tags.ts';
import { insertRow } from '../rows.ts';
import { tag } from '../schema/index.ts';

/** The tag counts for its piece until its replacement is entered, so that the lot has as many tags as pieces. */
export function saveBroken(scene: Scene, row: TagRow): void {
  change(scene, row, { brokeAt: scene.at });
}

/** The replacement stands where the tag stood, and the tag stays on record beside it. */
export function saveReplacement(scene: Scene, row: TagRow, replacement: string): void {
  change(scene, row, { condition: 'broken', brokeAt: row.brokeAt === '' ? scene.at : row.brokeAt });
  const { lotId, position } = row;
  const fields = { tag: replacement, condition: 'replacement', live: true, replaces: row.tag } as const;
  insertRow(scene.book, tag, { lotId, position, ...fields, line: scene.line });
}

/** The tag is as it was at the hammer; a replacement that was entered for it is off. */
export function saveWhole(scene: Scene, row: TagRow): void {
  const replacement = and(eq(tag.lotId, row.lotId), eq(tag.replaces, row.tag));
  scene.book.db.delete(tag).where(replacement).run();
  const parsed = parseTag(row.tag);
  const federal = row.replaces !== '' || (parsed.ok && parsed.value.replacement);
  change(scene, row, { condition: federal ? 'replacement' : 'intact', brokeAt: '' });
}

function change(scene: Scene, { id }: TagRow, fields: Partial<Pick<TagRow, 'condition' | 'brokeAt'>>): void {
  scene.book.db
    .update(tag)
    .set({ ...fields, line: scene.line })
    .where(eq(tag.id, id))
    .run();
}
