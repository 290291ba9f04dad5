/** Brings a sale to its close as the treasurer would: everything called, issued, paid, and the drawer put away. */

import { drawerEntries } from '#db/queries/drawer.ts';
import { saleById } from '#db/queries/find.ts';
import { payoutSellers, personIdOf } from '#db/queries/payout-scene.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { buyerAccounts } from '#lib/buyer-account.ts';
import { isOpen } from '#lib/drawer/reckon.ts';
import { formatMoney, negate } from '#lib/money.ts';
import type { Hall } from './hall.ts';

type Giving = Pick<Hall, 'book' | 'give' | 'must'>;

/** From the stage “selling” or “settling” to “closed”. Lots that were not called are passed, or withdrawn where they are on hold. */
export function closeSale(hall: Giving, saleId: number): void {
  const { must, give, book } = hall;
  callTheRest(hall, saleId);
  give('sale.stage', { saleId, stage: 'settling', reason: '' });
  for (const { sellerNo } of saleFacts(book, saleId).sellers) {
    if (!give('settlement.issue', { saleId, sellerNo }).ok) {
      give('settlement.correct', { saleId, sellerNo, reason: 'put right' });
    }
  }
  payBuyers(hall, saleId);
  paySellers(hall, saleId);
  if (isOpen(drawerEntries(book, saleId)))
    must('drawer.record', { saleId, kind: 'closed', note: 'a test counts nothing' });
  must('sale.stage', { saleId, stage: 'closed', reason: '' });
}

function callTheRest({ give, book }: Giving, saleId: number): void {
  const { lots, outcomes } = saleFacts(book, saleId);
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  if (lots.every(({ lotNo }) => called.has(lotNo))) return;
  give('sale.stage', { saleId, stage: 'selling', reason: 'lots are left' });
  for (const { lotNo } of lots) {
    if (called.has(lotNo)) continue;
    const passed = give('outcome.record', { saleId, lotNo, kind: 'passed' }, { station: 'block' });
    if (!passed.ok) give('outcome.record', { saleId, lotNo, kind: 'withdrawn' }, { station: 'block' });
  }
}

function payBuyers({ must, give, book }: Giving, saleId: number): void {
  for (const { buyerNo, owingCents } of buyerAccounts(saleFacts(book, saleId))) {
    give('invoice.issue', { saleId, buyerNo });
    if (owingCents === 0) continue;
    const direction = owingCents > 0 ? 'in' : 'out';
    const amount = formatMoney(owingCents > 0 ? owingCents : negate(owingCents));
    must('payment.record', { saleId, direction, buyerNo, method: 'cash', amount });
  }
}

function paySellers({ must, book }: Giving, saleId: number): void {
  const sale = saleById(book, saleId);
  for (const { sellerNo, accounts } of sale ? payoutSellers(book, sale) : []) {
    for (const { personId: ref, owingCents } of accounts) {
      if (owingCents === 0) continue;
      const direction = owingCents > 0 ? 'out' : 'in';
      const amount = formatMoney(owingCents > 0 ? owingCents : negate(owingCents));
      const personId = personIdOf(book, saleId, ref);
      must('payment.record', { saleId, direction, sellerNo, personId: personId ?? null, method: 'cash', amount });
    }
  }
}
