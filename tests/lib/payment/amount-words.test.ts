/** No sentence and no label has a minus in front of an amount, whatever the money of a sale comes to. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitInWords } from '#lib/buyer/buyer.ts';
import { decideHandover } from '#lib/buyer/handover.ts';
import { differenceInWords } from '#lib/drawer/drawer.ts';
import { lotNo } from '#lib/lot/number.ts';
import { cents } from '#lib/money/money.ts';
import {
  balanceWords,
  chargedWords,
  movedWords,
  owingWords,
  paidWords,
  partnerWords,
  typedInWords,
} from '#lib/payment/amount-words.ts';
import {
  askBeyondDrawer,
  decideAfterClosing,
  decideBuyerPayment,
  decideNoMore,
  decideSellerPayment,
} from '#lib/payment/decide-payment.ts';
import { buyerBalanceWords, sellerBalanceWords } from '#lib/payment/paid-so-far.ts';
import { type ClosingFacts, decideClose, unfinishedOf } from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import type { Result } from '#lib/result/result.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';

const SIGNED = /[-\u2212]\s?\$?\d/;
const money = fc.integer({ min: -999_999_999, max: 999_999_999 }).map(cents);
const typed = fc.integer({ min: 1, max: 999_999_999 }).map(cents);
const direction = fc.constantFrom('in', 'out');
const SCENE = { currency: 'USD', at: '2026-02-28T18:00:00Z', timeZone: 'America/Denver', payments: [] } as const;

const said = (decided: Result<unknown>) => (decided.ok ? '' : decided.message);

describe('an amount in a sentence', () => {
  it('has no sign, whichever way it goes (law)', () => {
    fc.assert(
      fc.property(money, money, typed, direction, (one, other, amountCents, way) => {
        const proposed = { direction: way, amountCents, answered: [] } as const;
        const account = { personId: 'P1', shareCents: one, paidCents: other, owingCents: one };
        const seller = { sellerNo: 3, accounts: [account] } as never;
        const split = { paidCents: one, setOffCents: other, givenUpCents: one, feeCents: other };
        const lot = { lotNo: lotNo('1'), buyerNo: 4, handed: false, count: 1 };
        const hand = { stage: 'closed', buyerNo: 4, lots: [lot], pieces: 1, unpaidAllowed: false } as const;
        const paid =
          way === 'in' ? [decideSellerPayment(SCENE, seller, { ...proposed, person: null, nameOf: String })] : [];
        const words = [
          ...[owingWords(one), ...paidWords(split)].flatMap(({ label, amount }) => [label, amount]),
          ...[
            partnerWords(one, split),
            chargedWords(one),
            movedWords(one),
            balanceWords(one),
            limitInWords(amountCents, other),
          ],
          ...[buyerBalanceWords(one, 'USD'), sellerBalanceWords(one, 'USD')],
          differenceInWords({ method: 'cash', differenceCents: one }) ?? '',
          said(decideBuyerPayment(SCENE, { buyerNo: 4, owingCents: one }, proposed)),
          ...paid.map(said),
          said(askBeyondDrawer(one, proposed)),
          said(decideNoMore('Buyer 4', one, amountCents)),
          said(decideAfterClosing(one, amountCents, way)),
          said(decideHandover({ ...hand, paidCents: one, givenUpCents: other, neededCents: amountCents })),
        ];
        expect(words.filter((text) => SIGNED.test(text))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('has none in the balance of any sale, nor in what keeps it open (law)', () => {
    fc.assert(
      fc.property(anySale, fc.boolean(), (facts, empty) => {
        const closing: ClosingFacts = {
          ...{ facts, sheets: new Map(), oldSheets: new Set(), oldInvoices: new Set(), handed: new Map() },
          ...{ unpaid: new Set(), drawer: [], moves: [] },
          invoices: new Map(
            empty ? [] : facts.buyers.map(({ buyerNo }) => [buyerNo, { number: 1, totalCents: cents(5) }]),
          ),
        };
        const lines = closingLines(closing);
        const unfinished = unfinishedOf(closing, lines);
        const words = [
          ...lines.flatMap(({ why }) => why.map((one) => one.words)),
          ...unfinished.flatMap(({ title, why }) => [title, ...why.map((one) => one.words)]),
          said(decideClose({ lines, drawerOpen: false, unfinished, answered: [] })),
        ];
        expect(words.filter((text) => SIGNED.test(text))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('is never a sum that can go either way, spelled as it is, on a screen', () => {
    // Columns of tables have a sign; each is named here.
    const columns = [
      'app/(stations)/payout/seller-table.tsx: showMoney(row.netCents',
      // Only the debts, added up.
      'app/(stations)/till/page.tsx: showMoney(owingCents',
    ];
    const files = ['app', 'db'].flatMap((top) =>
      readdirSync(top, { recursive: true, encoding: 'utf8' }).map((name) => join(top, name)),
    );
    const signed = /(showMoney|amountInWords)\([\w.?]*(owing|paid|net|share|difference|left)Cents/gi;
    const found = files
      .filter((name) => /\.tsx?$/.test(name))
      .flatMap((name) => [...readFileSync(name, 'utf8').matchAll(signed)].map(([text]) => `${name}: ${text}`));
    expect(found.sort()).toEqual(columns);
  });
});

describe('an amount that was typed', () => {
  it.each([
    ['1000', '1,000.00'],
    [' .5', '0.50'],
    ['12.50', '12.50'],
    ['a lot', 'a lot'],
  ])('%j is read as %s', (text, words) => {
    expect(typedInWords(text)).toBe(words);
  });

  it('is never said on a screen as it was typed', () => {
    const files = readdirSync('app', { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.tsx'));
    const raw = /setDone\([^;]*\$\{(texts\.)?(amount|price)\}|done = `\$\{amount\}/;
    expect(files.filter((name) => raw.test(readFileSync(join('app', name), 'utf8')))).toEqual([]);
  });
});
