/**
 * `draw-ours.ts <sheets as JSON> <file for the PDF>`: draws settlement sheets as the program does, and prints what it
 * took. In a process of its own, so that its peak of memory is of this drawing only.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { renderSheets } from '#app/papers/render.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';

const [sheetsFile = '', pdf = ''] = process.argv.slice(2);
const sheets = JSON.parse(readFileSync(sheetsFile, 'utf8')) as SettlementSheet[];
// The first piece starts the worker and reads the fonts: a server does that once.
await renderSheets(sheets.slice(0, 6), { size: 'letter' });
const from = performance.now();
const bytes = await renderSheets(sheets, { size: 'letter' });
const ms = performance.now() - from;
const peak = /VmHWM:\s+(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1] ?? '0';
writeFileSync(pdf, bytes);
process.stdout.write(JSON.stringify({ ms, peakMegabytes: Number.parseInt(peak, 10) / 1024, bytes: bytes.length }));
process.exit(0);
