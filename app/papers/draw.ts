/** Draws papers as one PDF, a few sheets at a time, so that memory does not grow with their number. A letter that the
 * typeface lacks stands as U+FFFD, for all to see, instead of another one. */
import { buffer } from 'node:stream/consumers';
import { PDFDocument } from '@cantoo/pdf-lib';
import { Document, type DocumentProps, pdf } from '@react-pdf/renderer';
import { createElement, type ReactElement } from 'react';
import { type HasLetter, loadFonts } from './fonts.ts';
import { nameOf, type Paper, pagesOf } from './kinds.ts';
import type { PaperSize } from './styles.ts';

async function draw(document: ReactElement<DocumentProps>): Promise<Uint8Array> {
  const drawing = pdf(document);
  try {
    return await buffer(await drawing.toBuffer());
  } finally {
    // The renderer keeps every document that was ever drawn, unless it is told that there is none.
    drawing.updateContainer(null as unknown as ReactElement<DocumentProps>);
    (drawing.container as { document: unknown }).document = null;
  }
}

/** Few enough that a piece is small beside the program, many enough that the fonts are not embedded too often. */
const SHEETS_A_PIECE = 6;

/** One PDF of all sheets in the order given, each on a page of its own; `onProgress` is told how many are done. */
export async function renderPieces(
  sheets: readonly Paper[],
  size: PaperSize,
  onProgress: (done: number) => void,
): Promise<Uint8Array> {
  const has = await loadFonts();
  const whole = await PDFDocument.create({ updateMetadata: false });
  let done = 0;
  for (const piece of piecesOf(sheets)) {
    const shown = piece.map((sheet) => printable(sheet, has));
    const part = await PDFDocument.load(await renderPiece(shown, size), { updateMetadata: false });
    for (const page of await whole.copyPages(part, part.getPageIndices())) whole.addPage(page);
    done += piece.length;
    onProgress(done);
  }
  describe(whole, sheets);
  return whole.save();
}

/** A few sheets a piece, in their order; a list is one by itself, because it may be long and counts its own pages. */
function piecesOf(sheets: readonly Paper[]): Paper[][] {
  const pieces: Paper[][] = [];
  for (const sheet of sheets) {
    const last = pieces.at(-1);
    const joins = sheet.paper !== 'list' && last?.[0]?.paper !== 'list' && (last?.length ?? 0) < SHEETS_A_PIECE;
    if (last && joins) last.push(sheet);
    else pieces.push([sheet]);
  }
  return pieces;
}

/** A sheet that cannot be drawn fails the whole, with its name: a sheet missing from a pile is never noticed. */
async function renderPiece(piece: readonly Paper[], size: PaperSize): Promise<Uint8Array> {
  try {
    const pages = piece.map((paper) => pagesOf(paper, size));
    return await draw(createElement(Document, null, ...pages));
  } catch (fault) {
    const names = piece.map(nameOf).join(', ');
    throw new Error(`These could not be drawn: ${names}. ${String(fault)}`, { cause: fault });
  }
}

/** The day comes from the sheets and not from the clock, so that the same sheets make the same file. */
function describe(whole: PDFDocument, sheets: readonly Paper[]): void {
  const [first] = sheets;
  if (first === undefined) return;
  const day = new Date(`${first.issuedOn}T00:00:00Z`);
  whole.setTitle(`${first.title}: ${first.sale.name}`, { showInWindowTitleBar: true });
  whole.setAuthor(first.association.name);
  whole.setProducer('Peltry');
  whole.setLanguage('en');
  whole.setCreationDate(day);
  whole.setModificationDate(day);
}

const MISSING = '\u{fffd}';
const MISSING_REMARK = `A letter that this paper’s typeface lacks stands as ${MISSING}.`;

/** The paper with letters that can be printed, and a remark where one could not. */
function printable<T extends Paper>(sheet: T, has: HasLetter): T {
  let missed = false;
  const shown = everyText(sheet, (text) => {
    const own = onlyLetters(text, has);
    missed ||= own.includes(MISSING);
    return own;
  });
  return missed ? { ...shown, remarks: [...shown.remarks, MISSING_REMARK] } : shown;
}

function onlyLetters(text: string, has: HasLetter): string {
  return text.replace(/./gsu, (letter) => {
    if (has(letter.codePointAt(0) ?? 0)) return letter;
    // A joiner or a variation selector says how its neighbors look, and is nothing itself.
    return /\p{Default_Ignorable_Code_Point}/u.test(letter) ? '' : MISSING;
  });
}

/** The same plain JSON with each text in it changed. */
function everyText<T>(value: T, change: (text: string) => string): T {
  const walk = (part: unknown): unknown => {
    if (typeof part === 'string') return change(part);
    if (Array.isArray(part)) return part.map(walk);
    if (part === null || typeof part !== 'object') return part;
    return Object.fromEntries(Object.entries(part).map(([key, one]) => [key, walk(one)]));
  };
  return walk(value) as T;
}
