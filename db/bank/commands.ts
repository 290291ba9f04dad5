import * as z from 'zod';
import { postDepositVoiding } from '#db/account/post.ts';
import { accountBalance } from '#db/account/queries.ts';
import { defineCommand, defineSaleCommand, type Station } from '#db/book/command.ts';
import { rowBy } from '#db/book/find.ts';
import { amountOrNull, dateOrNull, readBy, rowId, someReason } from '#db/book/inputs.ts';
import { addRow } from '#db/book/rows.ts';
import { paymentThatVoids } from '#db/payment/queries.ts';
import { dayIn } from '#db/sale/queries.ts';
import { bankMark, deposit, journalEntry } from '#db/schema/index.ts';
import { ACCOUNTS } from '#lib/account/account.ts';
import { decideDeposit, decideDepositVoid } from '#lib/bank/deposit.ts';
import { decideClear, takenBack } from '#lib/bank/reconcile.ts';
import { readDate } from '#lib/date/typed-date.ts';
import { ZERO } from '#lib/money/money.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { bankEntries, bankedIn, checksWaiting, clearedDay, itemsOfDeposit, markOf } from './queries.ts';
import { saveDeposit } from './save.ts';

const BANKS: readonly Station[] = ['payout', 'office'];

const MOST = 1000;

/** Also of a closed sale: what was taken in is banked some day. */
export const bankDeposit = defineSaleCommand({
  name: 'bank.deposit',
  summary: 'Records what was brought to the bank: checks that were taken in, and cash from outside the drawer.',
  logLabel: 'Deposit',
  stations: BANKS,
  input: z.strictObject({
    saleId: rowId,
    /** The payments by check, each in one deposit only. */
    paymentIds: z.array(rowId).max(MOST).default([]),
    cash: amountOrNull.default(null),
    /** Where it is not today. */
    day: dateOrNull.default(null),
  }),
  run(context, { saleId, paymentIds, cash, day: given }) {
    const { book, at } = context;
    const today = dayIn(book, at);
    const [day, cashCents] = [given ?? today, cash ?? ZERO];
    const outsideCents = accountBalance(book, saleId, ACCOUNTS.outside);
    const decided = decideDeposit(
      { waiting: checksWaiting(book, saleId), bankedIn: (id) => bankedIn(book, id), outsideCents, day, today },
      { paymentIds, cashCents },
    );
    if (!decided.ok) return decided;
    const depositId = saveDeposit(context, { saleId, day, cashCents, checks: decided.value });
    return accept({ depositId });
  },
});

const depositById = rowBy(deposit, 'id');
const depositThatVoids = rowBy(deposit, 'voidsId');

/** Takes a deposit back by a further row; its checks and its cash wait again. */
export const depositVoid = defineCommand({
  name: 'deposit.void',
  summary: 'Voids a deposit, with the reason. Its checks and its cash wait to be banked again.',
  logLabel: 'Deposit voided',
  stations: BANKS,
  input: z.strictObject({ depositId: rowId, reason: someReason }),
  run(context, { depositId, reason }) {
    const { book } = context;
    const row = depositById(book, depositId);
    if (!row) return refuse('unknown', 'This deposit is not in the book: reload the page.', 'depositId');
    const decided = decideDepositVoid({
      voids: row.voidsId !== null,
      voided: depositThatVoids(book, depositId) !== undefined,
      clearedOn: clearedDay(book, 'deposit', depositId),
      cameBack: itemsOfDeposit(book, depositId).some(({ paymentId }) => paymentThatVoids(book, paymentId)),
    });
    if (!decided.ok) return decided;
    const { saleId, day, cashCents } = row;
    addRow(context, deposit, { saleId, day, cashCents, voidsId: depositId, reason });
    postDepositVoiding(context, depositId);
    return accept({ depositId });
  },
});

const entryIds = z.array(rowId).min(1, { error: 'Tick what stands on the statement.' }).max(MOST);

/** Marks entries of the bank account as standing on a statement. */
export const bankClear = defineCommand({
  name: 'bank.clear',
  summary: 'Marks checks, deposits and other entries of the bank account as standing on the statement of a day.',
  logLabel: 'On the statement',
  stations: BANKS,
  input: z.strictObject({ entryIds, day: readBy(readDate) }),
  run(context, { entryIds: ids, day }) {
    const { book, at } = context;
    if (new Set(ids).size < ids.length) {
      return refuse('malformed', 'An entry is listed twice: tick each entry once.', 'entryIds');
    }
    const entries = bankEntries(book);
    const byId = new Map(entries.map((entry) => [entry.entryId, entry]));
    const gone = takenBack(entries);
    for (const id of ids) {
      const entry = byId.get(id);
      const depositedOn = entry?.withId ? byId.get(entry.withId)?.day : undefined;
      const decided = decideClear({ entry, takenBack: gone.has(id), depositedOn, day, today: dayIn(book, at) });
      if (!decided.ok) return decided;
    }
    for (const entryId of ids) addRow(context, bankMark, { entryId, day });
    return accept({ cleared: ids.length });
  },
});

const entryById = rowBy(journalEntry, 'id');

/** Takes the marks away again: they were not on the statement. */
export const bankUnclear = defineCommand({
  name: 'bank.unclear',
  summary: 'Takes the mark away from entries of the bank account that are not on a statement after all.',
  logLabel: 'Off the statement',
  stations: BANKS,
  input: z.strictObject({ entryIds }),
  run(context, { entryIds: ids }) {
    const marks = new Map(ids.map((id) => [id, markOf(context.book, id)]));
    if (marks.size < ids.length || [...marks.values()].includes(undefined)) {
      return refuse('unknown', 'Not all of these are marked: reload the page.', 'entryIds');
    }
    if (ids.some((id) => entryById(context.book, id)?.kind === 'arrival')) {
      const message = 'What arrived was read on the statement: void the arrival instead, and leave it out here.';
      return refuse('conflict', message, 'entryIds');
    }
    for (const mark of marks.values()) {
      if (mark) addRow(context, bankMark, { entryId: mark.entryId, day: mark.day, voidsId: mark.id });
    }
    return accept({ unmarked: ids.length });
  },
});
