import { eq } from 'drizzle-orm';
import * as z from 'zod';
import { postProceeds } from '#db/account/post.ts';
import { type CommandContext, defineSaleCommand } from '#db/book/command.ts';
import { type SaleRow, sellerByNumber } from '#db/book/find.ts';
import { dateOrNull, partyNumber, rowId, seenCount, someReason } from '#db/book/inputs.ts';
import { canonical, logHead } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { dayIn } from '#db/sale/queries.ts';
import { seller, settlement } from '#db/schema/index.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { partnerAccounts, sharesOf } from '#lib/seller/account.ts';
import { type CorrectionSheet, correctionSheet, decideCorrectionSheet } from '#lib/settlement/correction.ts';
import {
  decideIssue,
  decideIssueAll,
  ISSUE_QUESTIONS,
  type IssuableSheets,
  type IssueContext,
  type IssueQuestion,
} from '#lib/settlement/decide-issue.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import type { SellerFile } from '#lib/settlement/parties.ts';
import { settlementOf, settlementSheet } from '#lib/settlement/sheet.ts';
import { payoutSeller } from './payout.ts';
import { nextSheetNumber, sellerFile, sellerFiles } from './sheets.ts';

type Issued = {
  readonly issued: readonly { readonly settlementId: number; readonly number: number; readonly sellerNo: number }[];
  /** The seller numbers that got none; where all were asked for. */
  readonly skipped?: readonly number[];
};

/** Issues settlement sheets: numbered without gaps within the sale, frozen, with the head of the log on them. */
export const settlementIssue = defineSaleCommand({
  name: 'settlement.issue',
  summary: 'Issues the settlement sheet of one seller number, or of every number that has none yet.',
  logLabel: 'Settlement sheet issued',
  stations: ['payout', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null issues a sheet to every seller number that has none and whose lots are all called; the others are skipped. */
    sellerNo: partyNumber.nullable(),
    /** Another day than that of the entry where the association is. */
    issuedOn: dateOrNull.nullable().default(null),
    /** For everybody: how many sheets the treasurer saw that this makes. */
    seen: seenCount,
    /** The questions that the treasurer has answered with yes. */
    answered: z.array(z.enum(ISSUE_QUESTIONS)).max(ISSUE_QUESTIONS.length).default([]),
  }),
  run({ sale, ...context }, { saleId, sellerNo, issuedOn, ...said }): Result<Issued> {
    const candidates = candidatesOf(context.book, saleId, sellerNo);
    const decided = choose(sale, candidates, { sellerNo, ...said });
    if (!decided.ok) return decided;
    const { ready: chosen, skipped } = decided.value;
    const issued = issue(context, sale.id, chosen, issuedOn ?? dayIn(context.book, context.at));
    return accept(sellerNo === null ? { issued, skipped: skipped.map((one) => one.sellerNo) } : { issued });
  },
});

interface Candidate extends IssueContext {
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

const sellersWithSheets = query(({ db }) =>
  db
    .select({ sellerId: seller.id, sellerNo: seller.sellerNo, number: settlement.number })
    .from(seller)
    .leftJoin(settlement, eq(settlement.sellerId, seller.id))
    .where(equals(seller.saleId, 'saleId')),
);

function waitingOf({ lots, outcomes }: SellerFile) {
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  return lots.map(({ lotNo }) => lotNo).filter((lotNo) => !called.has(lotNo));
}

function choose(
  sale: SaleRow,
  candidates: readonly Candidate[],
  said: { readonly sellerNo: number | null; readonly seen: number | null; readonly answered: readonly IssueQuestion[] },
): Result<IssuableSheets<Candidate>> {
  const { sellerNo, seen, answered } = said;
  if (sellerNo === null) return decideIssueAll(sale.stage, candidates, seen);
  const candidate = candidates.find((one) => one.sellerNo === sellerNo);
  if (!candidate) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  const decided = decideIssue(sale.stage, candidate, answered);
  return decided.ok ? accept({ ready: [candidate], skipped: [] }) : decided;
}

/** All sheets of one command carry the same head: the log as it stood before the command's own line. */
function issue(context: CommandContext, saleId: number, chosen: readonly Candidate[], issuedOn: string) {
  const head = logHead(context.book);
  const first = nextSheetNumber(context.book, saleId);
  return chosen.map(({ sellerId, sellerNo, file }, at) => {
    const number = first + at;
    const sheet = settlementSheet(file, { number, issuedOn, head });
    const settlementId = saveSettlement(context, { saleId, sellerId, number, correctsId: null }, sheet);
    postSheet(context, { saleId, sellerId, number, day: issuedOn }, file);
    return { settlementId, number, sellerNo };
  });
}

type IssuedPlace = Omit<NewRow<typeof settlement>, 'model' | 'issuedAt'>;

/** Freezes a sheet as RFC 8785 text, so that the same sheet is the same bytes on every machine; gives the row's id. */
function saveSettlement(context: CommandContext, place: IssuedPlace, sheet: SettlementSheet | CorrectionSheet): number {
  return addRow(context, settlement, { ...place, model: canonical(sheet), issuedAt: context.at });
}

interface SheetPlace extends Pick<IssuedPlace, 'saleId' | 'sellerId' | 'number'> {
  readonly day: string;
}

function postSheet(context: CommandContext, { number, ...place }: SheetPlace, file: SellerFile): void {
  const memo = `Settlement sheet ${number} of seller ${file.seller.sellerNo}`;
  postProceeds(context, { ...place, memo }, settlementOf(file), file.charges);
}

/** Issues a further sheet to a seller number whose sheet is no longer right; the older one stays as it was. */
export const settlementCorrect = defineSaleCommand({
  name: 'settlement.correct',
  summary: 'Issues a correction sheet: what was said before, what is right now, and what is still to pay or get back.',
  logLabel: 'Correcting sheet issued',
  stations: ['payout', 'office'],
  input: z.strictObject({
    saleId: rowId,
    sellerNo: partyNumber,
    reason: someReason,
    /** Another day than that of the entry where the association is. */
    issuedOn: dateOrNull.nullable().default(null),
  }),
  run({ sale, ...context }, { saleId, sellerNo, reason, issuedOn }) {
    const row = sellerByNumber(context.book, saleId, sellerNo);
    const found = payoutSeller(context.book, sale, sellerNo);
    if (!row || !found) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    const decided = decideCorrectionSheet(sale.stage, found);
    if (!decided.ok) return decided;
    const { issued, file } = found;
    if (!issued) throw new TypeError('a sheet that is corrected was issued');
    const number = nextSheetNumber(context.book, saleId);
    const stamp = { number, issuedOn: issuedOn ?? dayIn(context.book, context.at), head: logHead(context.book) };
    const now = settlementSheet(file, stamp);
    const accounts = partnerAccounts(sharesOf(now), found.payments);
    const paperContext = { association: file.association, saleId, sale: file.sale, ...stamp };
    const sheet = correctionSheet({ context: paperContext, before: issued.sheet, now, accounts, reason });
    const place = { saleId, sellerId: row.id, number, correctsId: issued.settlementId };
    const settlementId = saveSettlement(context, place, sheet);
    postSheet(context, { saleId, sellerId: row.id, number, day: stamp.issuedOn }, file);
    return accept({ settlementId, number, corrects: issued.number });
  },
});
