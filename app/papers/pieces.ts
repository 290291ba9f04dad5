/** Renders many sheets a few at a time and joins the pieces, so that memory does not grow with their number. */

import { PDFDocument } from '@cantoo/pdf-lib';
import { Document } from '@react-pdf/renderer';
import { createElement } from 'react';
import { draw } from './draw.ts';
import { loadFonts } from './fonts.ts';
import { nameOf, type Paper, pagesOf } from './kinds.ts';
import type { PaperSize } from './look.ts';
import { printable } from './printable.ts';

/** Few enough that a piece is small beside the program, many enough that the fonts are not embedded too often. */
const SHEETS_A_PIECE = 6;

interface Options {
  readonly size: PaperSize;
  /** Told after each piece how many sheets are done. */
  readonly onProgress: (done: number) => void;
}

/** One PDF of all sheets in the order given, each beginning on a page of its own. */
export async function renderPieces(sheets: readonly Paper[], { size, onProgress }: Options): Promise<Uint8Array> {
  const has = await loadFonts();
  const whole = await PDFDocument.create({ updateMetadata: false });
  let done = 0;
  for (const piece of piecesOf(sheets)) {
    const shown = piece.map((sheet) => printable(sheet, has));
    await append(whole, await renderPiece(shown, size));
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

async function append(whole: PDFDocument, piece: Uint8Array): Promise<void> {
  const part = await PDFDocument.load(piece, { updateMetadata: false });
  for (const page of await whole.copyPages(part, part.getPageIndices())) whole.addPage(page);
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
