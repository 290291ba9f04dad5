/** Which laptop a book was followed from, kept in a file beside it. */
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { writeToDisk } from '#db/book/files.ts';
import type { Book } from '#db/book/open.ts';
import { decideFollowAddress } from '#lib/network/hosts.ts';
import { takeoversOf } from './epoch.ts';

const followedFile = (book: string) => `${book}.followed`;

/** Notes it, so that taking over needs no address. */
export function noteFollowed(book: string, address: string): void {
  writeToDisk(followedFile(book), `${address}\n`);
}

/** Where a backup is restored, what was followed there before says nothing. */
export function forgetFollowed(book: string): void {
  rmSync(followedFile(book), { force: true });
}

/** The address of the laptop that was followed; empty where none was. */
export function followedFrom(book: string): string {
  const file = followedFile(book);
  const address = existsSync(file) ? decideFollowAddress(readFileSync(file, 'utf8').trim()) : null;
  return address?.ok ? address.value.origin : '';
}

/** Whether a book is the copy of a second laptop that has not taken over from the laptop that it followed. */
export function isOnlyFollowing(book: Book): boolean {
  const from = followedFrom(book.file);
  return from !== '' && takeoversOf(book)[0]?.told !== from;
}
