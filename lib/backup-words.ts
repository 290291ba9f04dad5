/** How things stand with the backups in one folder, in a sentence. */

export interface BackupsGround {
  /** ISO 8601 times in UTC. */
  readonly now: string;
  readonly newest: { readonly at: string; readonly line: number | null } | null;
  /** The newest line of the log. */
  readonly line: number;
  /** Every how many minutes a copy is made; 0 for never. */
  readonly minutes: number;
  /** What the last attempt said where it failed; null where it went well or none was made. */
  readonly failed: string | null;
}

/** A warning where the last one failed or is old, else how things stand. */
export function backupsInWords(ground: BackupsGround): { readonly warning: string | null; readonly standing: string } {
  const { newest, failed, line, minutes } = ground;
  const since = newest?.line == null ? line : line - newest.line;
  const standing = newest ? `The newest is ${ago(newest.at, ground.now)} old. ${entries(since)}` : '';
  if (failed !== null) return { warning: `The last backup failed: ${failed} ${standing}`.trim(), standing };
  if (!newest)
    return { warning: line === 0 ? null : 'There is no backup here yet. Make one now.', standing: 'None yet.' };
  const old = minutes > 0 && since > 0 && minutesBetween(newest.at, ground.now) > 3 * minutes;
  return { warning: old ? `The last backup is too old. ${standing} Make one now.` : null, standing };
}

function entries(since: number): string {
  if (since <= 0) return 'Everything that was entered is in it.';
  return since === 1 ? '1 entry was made since.' : `${since} entries were made since.`;
}

function ago(then: string, now: string): string {
  const minutes = minutesBetween(then, now);
  if (minutes < 2) return 'less than two minutes';
  if (minutes < 120) return `${minutes} minutes`;
  return minutes < 48 * 60 ? `${Math.floor(minutes / 60)} hours` : `${Math.floor(minutes / 1440)} days`;
}

function minutesBetween(then: string, now: string): number {
  return Math.max(0, Math.floor((Date.parse(now) - Date.parse(then)) / 60_000));
}
