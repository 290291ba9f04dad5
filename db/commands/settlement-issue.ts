import { eq, sql } from 'drizzle-orm';
import { z } from 'zod';
import { accept, type Result, refuse } from '#lib/result.ts';
import {
  decideIssue,
  decideIssueAll,
  ISSUE_QUESTIONS,
  type IssueAll,
  type IssueQuestion,
  type IssueScene,
} from '#lib/sheet/decide-issue.ts';
import type { SellerFile } from '#lib/sheet/input.ts';
import { settlementSheet } from '#lib/sheet/settlement-sheet.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { dateOrNull, partyNumber, rowId, seenCount } from '../inputs.ts';
import { logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { type SaleRow, saleById } from '../queries/find.ts';
import { dayIn } from '../queries/local-days.ts';
import { nextSheetNumber, sellerFile, sellerFiles } from '../queries/sheets.ts';
import { saveSettlement } from '../save/settlement.ts';
import { seller, settlement } from '../schema/index.ts';
import { statement } from '../statement.ts';

const input = z.strictObject({
  saleId: rowId,
  /** Null issues a sheet to every seller number that has none and whose lots are all called; the others are skipped. */
  sellerNo: partyNumber.nullable(),
  /** Another day than that of the entry where the association is. */
  issuedOn: dateOrNull.nullable().default(null),
  /** For everybody: how many sheets the treasurer saw that this makes. */
  seen: seenCount,
  /** The questions that the treasurer has answered with yes. */
  answered: z.array(z.enum(ISSUE_QUESTIONS)).max(ISSUE_QUESTIONS.length).default([]),
});

type Issued = {
  readonly issued: readonly { readonly settlementId: number; readonly number: number; readonly sellerNo: number }[];
  /** The seller numbers that got none; where all were asked for. */
  readonly skipped?: readonly number[];
};

/** Issues settlement sheets: numbered without gaps within the sale, frozen, with the head of the log on them. */
export const settlementIssue = defineCommand({
  name: 'settlement.issue',
  summary: 'Issues the settlement sheet of one seller number, or of every number that has none yet.',
  logLabel: 'Settlement sheet issued',
  stations: ['payout', 'office'],
  input,
  run(context, { saleId, sellerNo, issuedOn, ...said }): Result<Issued> {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const candidates = candidatesOf(context.book, saleId, sellerNo);
    const decided = choose(sale, candidates, { sellerNo, ...said });
    if (!decided.ok) return decided;
    const { ready: chosen, skipped } = decided.value;
    const issued = issue(context, sale.id, { chosen, issuedOn: issuedOn ?? dayIn(context.book, context.at) });
    return accept(sellerNo === null ? { issued, skipped: skipped.map((one) => one.sellerNo) } : { issued });
  },
});

interface Candidate extends IssueScene {
  readonly sellerId: number;
  readonly file: SellerFile;
}

/** Of one seller number no more is read than its own sheet needs. */
function candidatesOf(book: Book, saleId: number, sellerNo: number | null): Candidate[] {
  const issued = new Map(
    sellersWithSheets(book)
      .all({ saleId })
      .map((row) => [row.sellerNo, row]),
  );
  const files = sellerNo === null ? sellerFiles(book, saleId) : [sellerFile(book, saleId, sellerNo)];
  return files.flatMap((file) => {
    const row = file && issued.get(file.seller.sellerNo);
    if (!file || !row) return [];
    const { sellerId, number: issuedNumber } = row;
    const called = { lots: file.lots.length, waiting: waitingOf(file) };
    return [{ sellerId, sellerNo: row.sellerNo, issuedNumber, ...called, file }];
  });
}

const sellersWithSheets = statement(({ db }) =>
  db
    .select({ sellerId: seller.id, sellerNo: seller.sellerNo, number: settlement.number })
    .from(seller)
    .leftJoin(settlement, eq(settlement.sellerId, seller.id))
    .where(eq(seller.saleId, sql.placeholder('saleId')))
    .prepare(),
);

function waitingOf({ lots, outcomes }: SellerFile) {
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  return lots.map(({ lotNo }) => lotNo).filter((lotNo) => !called.has(lotNo));
}

interface Asked {
  readonly sellerNo: number | null;
  readonly seen: number | null;
  readonly answered: readonly IssueQuestion[];
}

function choose(
  sale: SaleRow,
  candidates: readonly Candidate[],
  { sellerNo, seen, answered }: Asked,
): Result<IssueAll<Candidate>> {
  if (sellerNo === null) return decideIssueAll(sale.stage, candidates, seen);
  const candidate = candidates.find((one) => one.sellerNo === sellerNo);
  if (!candidate) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  const decided = decideIssue(sale.stage, candidate, answered);
  return decided.ok ? accept({ ready: [candidate], skipped: [] }) : decided;
}

interface Chosen {
  readonly chosen: readonly Candidate[];
  readonly issuedOn: string;
}

/** All sheets of one command carry the same head: the log as it stood before the command's own line. */
function issue(context: CommandContext, saleId: number, { chosen, issuedOn }: Chosen) {
  const head = logHead(context.book);
  const first = nextSheetNumber(context.book, saleId);
  return chosen.map(({ sellerId, sellerNo, file }, at) => {
    const number = first + at;
    const sheet = settlementSheet(file, { number, issuedOn, head });
    return {
      settlementId: saveSettlement(context, { saleId, sellerId, number, correctsId: null }, sheet),
      number,
      sellerNo,
    };
  });
}
