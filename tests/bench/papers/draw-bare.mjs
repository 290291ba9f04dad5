// `draw-bare.mjs <words of each page as JSON> <file for the PDF>`: sets the same words at the same places in the same
// typeface with pdfkit alone, and prints what it took. Plain JavaScript, because the library comes without types.
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';

const { resolve } = createRequire(import.meta.url);
const REGULAR = resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf');
const BOLD = resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf');
/** The typeface's own line is this many times its size high. */
const LINE = 1.164;
/** From this size on the sheets are set in bold. */
const BOLD_FROM = 9.5;

const [wordsFile = '', pdf = ''] = process.argv.slice(2);
const pages = JSON.parse(readFileSync(wordsFile, 'utf8'));

async function draw(some) {
  const document = new PDFDocument({ size: 'LETTER', margin: 0, autoFirstPage: false });
  const parts = [];
  const ended = new Promise((done) => document.on('end', done));
  document.on('data', (part) => parts.push(part));
  document.registerFont('regular', REGULAR);
  document.registerFont('bold', BOLD);
  for (const words of some) {
    document.addPage();
    for (const [left, top, height, word] of words) {
      const size = height / LINE;
      document.font(size < BOLD_FROM ? 'regular' : 'bold').fontSize(size);
      document.text(word, left, top, { lineBreak: false });
    }
  }
  document.end();
  await ended;
  return Buffer.concat(parts);
}

await draw(pages.slice(0, 6));
const from = performance.now();
const bytes = await draw(pages);
const ms = performance.now() - from;
writeFileSync(pdf, bytes);
process.stdout.write(JSON.stringify({ ms, bytes: bytes.length }));
