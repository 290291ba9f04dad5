import 'server-only';
import { dirname, join, resolve } from 'node:path';

/** Where and how often copies are made. Folders belong to a laptop and not to the book, so its environment says them. */
export interface CopySettings {
  /** Made where it is missing. */
  readonly folder: string;
  /** Such as a stick; never made, because a missing one means that nobody put it in. */
  readonly second: string | undefined;
  /** 0 where no copies are made by themselves. */
  readonly minutes: number;
}

const USUAL_MINUTES = 10;

export function copySettings(book: string): CopySettings {
  const { PELTRY_BACKUPS: folder, PELTRY_BACKUPS_SECOND: second, PELTRY_BACKUP_MINUTES: minutes } = process.env;
  return {
    folder: resolve(folder || join(dirname(book), 'backups')),
    second: second ? resolve(second) : undefined,
    minutes: /^\d{1,4}$/.test(minutes ?? '') ? Number.parseInt(minutes ?? '', 10) : USUAL_MINUTES,
  };
}
