/** Lot tickets on a sheet of labels, the page by which a printer is aligned to it, and the larger tickets, two a page. */
import { clean } from '#lib/settlement/spelling.ts';
import type { PaperContext } from './facts.ts';
import { LABELS_A_PAGE, labelSpot, NO_OFFSET, type Offset, type Spot } from './label-stock.ts';
import type { ListPaper } from './list.ts';
import type { Ticket } from './tickets.ts';

interface OnPaper {
  readonly title: string;
  readonly issuedOn: string;
  readonly association: { readonly name: string };
  readonly sale: { readonly name: string };
  /** A label has no room for remarks: always empty. */
  readonly remarks: readonly string[];
}

export interface LabelPage extends OnPaper {
  readonly paper: 'labels';
  readonly labels: readonly { readonly spot: Spot; readonly ticket: Ticket }[];
}

export interface AlignmentPage extends OnPaper {
  readonly paper: 'label-alignment';
  readonly labels: readonly {
    readonly spot: Spot;
    readonly no: string;
    readonly sentence: string;
    readonly scale: boolean;
  }[];
}

export interface TicketPage extends OnPaper {
  readonly paper: 'tickets';
  readonly tickets: readonly Ticket[];
}

interface Placing {
  /** The first label that is still on the sheet, 1 to 30. */
  readonly start: number;
  readonly offset: Offset;
}

/** The pages of labels: on the first the tickets begin at label `start`, on the others at the first. */
export function labelPages(
  tickets: readonly Ticket[],
  context: PaperContext,
  { start, offset }: Placing = { start: 1, offset: NO_OFFSET },
): LabelPage[] {
  const skipped = start - 1;
  return Array.from({ length: Math.ceil((tickets.length + skipped) / LABELS_A_PAGE) }, (_, page) => {
    const first = page * LABELS_A_PAGE;
    const own = tickets.slice(Math.max(0, first - skipped), first + LABELS_A_PAGE - skipped);
    const from = page === 0 ? start : 1;
    const labels = own.map((ticket, at) => ({ ticket, spot: labelSpot(from + at, offset) }));
    return { paper: 'labels', ...onPaper('Lot tickets', context), labels };
  });
}

export function ticketPages(tickets: readonly Ticket[], context: PaperContext): TicketPage[] {
  return Array.from({ length: Math.ceil(tickets.length / 2) }, (_, page) => ({
    paper: 'tickets',
    ...onPaper('Lot tickets', context),
    tickets: tickets.slice(page * 2, page * 2 + 2),
  }));
}

/** Every label of a sheet as a frame, to be held behind the labels against the light. */
export function alignmentPage(context: PaperContext, offset: Offset): AlignmentPage {
  const printed = `Printed ${millimetres(offset.rightTenthsMm)} mm to the right and ${millimetres(offset.downTenthsMm)} mm down.`;
  // The sentences go down the middle column, which is read first.
  const sentences = new Map([printed, ...HOW].map((sentence, at) => [2 + 3 * at, sentence]));
  const labels = Array.from({ length: LABELS_A_PAGE }, (_, at) => ({
    spot: labelSpot(at + 1, offset),
    no: String(at + 1),
    sentence: sentences.get(at + 1) ?? '',
    scale: CORNERS.includes(at + 1),
  }));
  return { paper: 'label-alignment', ...onPaper('Label alignment', context), labels };
}

const CORNERS = [1, 3, 28, 30];

const HOW = [
  'Print this page on plain paper at its actual size, not fitted to the page.',
  'Hold it behind a sheet of labels against the light.',
  'The scales of labels 1, 3, 28 and 30 are in millimetres, the longest 5 from the edge.',
  'Do the frames lie too far left? Enter that many to the right. Too far right? Enter them with a minus. Down in the same way.',
  'Print it again with the new figures until the frames lie on the labels.',
  'Then print the tickets with the same figures.',
] as const;

function millimetres(tenths: number): string {
  const digits = String(Math.abs(tenths)).padStart(2, '0');
  return `${tenths < 0 ? '-' : ''}${digits.slice(0, -1)}.${digits.slice(-1)}`;
}

function onPaper(title: string, { issuedOn, association, sale }: PaperContext): OnPaper {
  const names = { association: { name: clean(association.name) }, sale: { name: clean(sale.name) } };
  return { title, issuedOn, ...names, remarks: [] };
}

/** Whose stubs they are, and the stubs from the top of the page down, each with the thirds it takes. */
export interface StubPage extends Pick<ListPaper, 'title' | 'issuedOn' | 'association' | 'sale' | 'remarks'> {
  readonly paper: 'stubs';
  readonly stubs: readonly { readonly list: ListPaper; readonly thirds: number }[];
}

const THIRDS = 3;
/** The rows that one third holds, and two. */
const ROWS = [9, 28] as const;

/** The pages in the order of the stubs. A stub with more rows than two thirds hold is a paper of its own. */
export function stubPages(lists: readonly ListPaper[]): (StubPage | ListPaper)[] {
  const pages: (StubPage | ListPaper)[] = [];
  for (const list of lists) {
    const thirds = thirdsOf(list);
    const page = pages.at(-1);
    if (thirds === null) pages.push(list);
    else if (page?.paper === 'stubs' && takenOf(page) + thirds <= THIRDS)
      pages.splice(-1, 1, { ...page, stubs: [...page.stubs, { list, thirds }] });
    else {
      const { title, issuedOn, association, sale } = list;
      pages.push({ paper: 'stubs', title, issuedOn, association, sale, remarks: [], stubs: [{ list, thirds }] });
    }
  }
  return pages;
}

function thirdsOf({ tables }: ListPaper): number | null {
  const rows = tables.flatMap((table) => table.rows).length;
  const at = ROWS.findIndex((most) => rows <= most);
  return at === -1 ? null : at + 1;
}

function takenOf({ stubs }: StubPage): number {
  return stubs.reduce((so, { thirds }) => so + thirds, 0);
}
