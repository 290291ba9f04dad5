import 'server-only';
import { cache } from 'react';
import { newestLine } from '#db/log.ts';
import { theBook } from './book.ts';

/**
 * The log line at which a page is drawn: the same for all its parts. The ground of a page asks for it before anything
 * is read, so that an entry made meanwhile is a later line, and the page is read once more.
 */
export const lineDrawnAt = cache(async (): Promise<number> => newestLine(await theBook()));
