import { closeSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';

/** Less free room than this is used up again before anybody has gone back to their table. */
const ROOM_BYTES = 8 * 1024 * 1024;

/**
 * Writes, synchronises and takes away a file beside the book, to see that writing works again.
 * @throws what the disk says where it does not.
 */
export function probeDisk(book: string): void {
  const file = `${book}-probe`;
  try {
    const descriptor = openSync(file, 'w');
    try {
      const piece = Buffer.alloc(1024 * 1024);
      for (let written = 0; written < ROOM_BYTES; ) written += writeSync(descriptor, piece);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } finally {
    rmSync(file, { force: true });
  }
}
