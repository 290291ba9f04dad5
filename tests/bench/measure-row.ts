/** `tsx tests/bench/measure-row.ts <row> <options as JSON> <file for the result>`: measures one row in this process. */
import { writeFileSync } from 'node:fs';
import type { Bench, Line, Row } from './row.ts';

const [name = '', options = '', file = ''] = process.argv.slice(2);
const { default: row } = (await import(`./rows/${name}.ts`)) as { default: Row };
const lines: readonly Line[] = await row(JSON.parse(options) as Bench);
writeFileSync(file, JSON.stringify(lines));
// A server or a worker that is still about must not keep the bench waiting.
process.exit(0);
