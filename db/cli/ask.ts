/** Asks for a passphrase on the terminal without showing it; where there is none, its line is read from the input. */
import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';

export async function askUnseen(question: string): Promise<string> {
  const { stdin, stderr } = process;
  if (stdin.isTTY) stderr.write(`${question} (it is not shown): `);
  const unseen = new Writable({ write: (_chunk, _encoding, done) => done() });
  const reader = createInterface({ input: stdin, output: unseen, terminal: stdin.isTTY });
  try {
    for await (const line of reader) return line;
    return '';
  } finally {
    reader.close();
    if (stdin.isTTY) stderr.write('\n');
  }
}
