import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { drawerMoves } from '#db/drawer/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { sellerView } from '#db/seller/queries.ts';
import { previewSheet } from '#db/settlement/sheets.ts';
import { sumCents, ZERO } from '#lib/money/money.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { exportFiles, importFiles, withBook, withoutJournal } from '#tests/support/exchange.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { balanceProblems } from '#tests/support/money-laws.ts';

/** Seller 1 is a member already; seller 2 is a guest, and somebody has no number. */
function hall() {
  const own = openHall();
  const guest = own.must('person.enrol', { name: 'Dot Ebner', memberNo: 'LR-9' }).personId;
  const visitor = own.must('person.enrol', { name: 'Eli Frost' }).personId;
  own.must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: guest }] });
  return { ...own, guest, visitor } as const;
}

const dues = { saleId: 1, sellerNo: 2, how: 'cash', amount: '25.00' } as const;
const partnerOf = ({ book }: Hall, sellerNo: number) => {
  const sale = saleById(book, 1);
  return sale && sellerView(book, sale, sellerNo);
};
const netOf = ({ book }: Hall, sellerNo: number) =>
  settleSale(saleFacts(book, 1)).find((one) => one.sellerNo === sellerNo)?.netCents;
const moneyIn = ({ book }: Hall) => sumCents(drawerMoves(book, 1).map(({ amountCents }) => amountCents));
const accountOf = ({ book }: Hall, account: string) => accountBalances(journalOf(saleFacts(book, 1))).get(account) ?? 0;

describe('dues.take', () => {
  it('in cash makes a member at once, goes into the drawer, and leaves the proceeds alone', () => {
    const at = hall();
    expect(partnerOf(at, 2)).toMatchObject({ sellsAs: 'guest', partners: [{ membership: { state: 'guest' } }] });
    const net = netOf(at, 2);
    expect(at.must('dues.take', { ...dues, personId: at.guest })).toMatchObject({ memberUntil: '2027-02-28' });
    expect(partnerOf(at, 2)).toMatchObject({
      sellsAs: 'member',
      partners: [{ membership: { state: 'paid', words: 'Member LR-9, dues paid until Feb 28, 2027' } }],
    });
    expect(netOf(at, 2)).toBe(net);
    expect(moneyIn(at)).toBe(2500);
    expect(accountOf(at, 'Income:Dues')).toBe(-2500);
    expect(accountOf(at, 'Assets:Cash')).toBe(2500);
    expect(balanceProblems(at.book, 1)).toEqual([]);
  });

  it('from the proceeds is a charge on the sheet, at the members’ commission', () => {
    const at = hall();
    at.must('lot.add', { saleId: 1, sellerNo: 2, goods: 'raccoon', count: '10' });
    at.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 10, answered: [] });
    // 200.00 at 10 % is 20.00, with 5.00 for the number and 0.25 for the lot.
    expect(netOf(at, 2)).toBe(17_475);
    at.must('dues.take', { ...dues, personId: at.guest, how: 'deducted' });
    // At 6 % it is 12.00, and the dues of 25.00 go off: 200.00 − 12.00 − 5.25 − 25.00.
    expect(netOf(at, 2)).toBe(15_775);
    expect(moneyIn(at)).toBe(0);
    const sheet = previewSheet(at.book, { saleId: 1, sellerNo: 2 }, '2026-02-28');
    expect(sheet?.charges).toMatchObject([{ label: 'Dues: paid until Feb 28, 2027', amount: { cents: 2500 } }]);
    expect(accountOf(at, 'Liabilities:Sellers:2')).toBe(-15_775);
  });

  it('of somebody without a number are a payment in cash, and theirs in every sale to come', () => {
    const at = hall();
    at.must('dues.take', { ...dues, personId: at.visitor, sellerNo: null, memberUntil: '2026-12-31' });
    expect(moneyIn(at)).toBe(2500);
    expect(accountOf(at, 'Income:Dues')).toBe(-2500);
    expect(saleFacts(at.book, 1).payments).toMatchObject([{ direction: 'in', sellerNo: null, method: 'cash' }]);
    at.must('seller.register', { saleId: 1, sellerNo: 3, partners: [{ personId: at.visitor }] });
    expect(partnerOf(at, 3)).toMatchObject({ sellsAs: 'member' });
    at.refuses('payment.void', { paymentId: 1, reason: 'slip' }, { code: 'not_allowed', field: 'paymentId' });
  });

  it.each([
    { how: 'check', reference: '1042', said: '1042, dues until Feb 28, 2027', account: 'Assets:Checks' },
    { how: 'card', reference: '', said: 'dues until Feb 28, 2027', account: 'Assets:Cards' },
  ] as const)(
    'by $how are a payment of their own, also of somebody with a number',
    ({ how, reference, said, account }) => {
      const at = hall();
      const net = netOf(at, 2);
      at.must('dues.take', { ...dues, personId: at.guest, how, reference });
      expect(partnerOf(at, 2)).toMatchObject({ sellsAs: 'member', dues: [{ amount: '25.00', how }] });
      expect(saleFacts(at.book, 1).payments).toMatchObject([{ method: how, sellerNo: null, reference: said }]);
      expect(drawerMoves(at.book, 1)).toMatchObject([{ method: how, amountCents: 2500 }]);
      expect([accountOf(at, account), accountOf(at, 'Income:Dues'), netOf(at, 2)]).toEqual([2500, -2500, net]);
      expect(revenueOf(saleFacts(at.book, 1), ZERO).duesCents).toBe(2500);
      expect(balanceProblems(at.book, 1)).toEqual([]);
      at.must('dues.void', { duesId: 1, reason: 'the check came back' });
      expect(partnerOf(at, 2)).toMatchObject({ sellsAs: 'guest', dues: [] });
      expect([accountOf(at, account), accountOf(at, 'Income:Dues')]).toEqual([0, 0]);
    },
  );

  it('go out with the folder and come in again, however they were paid', () => {
    const at = hall();
    for (const how of ['cash', 'check', 'card'] as const) at.must('dues.take', { ...dues, personId: at.guest, how });
    const files = exportFiles(at.book, 1);
    withBook((book) => {
      importFiles(book, files);
      expect(withoutJournal(exportFiles(book, 1))).toEqual(withoutJournal(files));
      expect(revenueOf(saleFacts(book, 1), ZERO).duesCents).toBe(7500);
    });
  });

  it('runs to the day that the sale says, and a year further for whoever has paid to it', () => {
    const at = hall();
    at.must('intake.rules', { saleId: 1, licenceRequired: false, duesUntil: '2026-12-31' });
    expect(at.must('dues.take', { ...dues, personId: at.guest })).toMatchObject({ memberUntil: '2026-12-31' });
    expect(at.must('dues.take', { ...dues, personId: at.guest })).toMatchObject({ memberUntil: '2027-12-31' });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ personId: 99 }, 'unknown', 'personId'],
    [{ sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ sellerNo: 1 }, 'not_allowed', 'sellerNo'],
    [{ sellerNo: null, how: 'deducted' }, 'missing', 'how'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ amount: '25.001' }, 'malformed', 'amount'],
    [{ how: 'later' }, 'malformed', 'how'],
    [{ how: 'check', reference: 'x'.repeat(501) }, 'malformed', 'reference'],
    [{ memberUntil: '2026-02-27' }, 'malformed', 'memberUntil'],
    [{ memberUntil: '3.12.2026' }, 'malformed', 'memberUntil'],
  ] as const)('refuses %j', (over, code, field) => {
    const at = hall();
    at.refusesUntyped('dues.take', { ...dues, personId: at.guest, ...over }, { code, field });
  });

  it('refuses a day that is paid already, and a closed sale', () => {
    const at = openHall();
    const paid = { ...dues, sellerNo: 1, personId: 1, memberUntil: '2026-12-31' } as const;
    at.refuses('dues.take', paid, { code: 'already', field: 'memberUntil' });
    openHall({ stage: 'closed' }).refuses('dues.take', paid, { code: 'wrong_stage', field: 'saleId' });
  });
});

describe('dues said with the seller number', () => {
  it('let a guest sell where only members may, in one act or none', () => {
    const at = hall();
    at.book.sqlite.exec('UPDATE sale SET guests_may_sell = 0');
    const register = (over: object) => ({ saleId: 1, sellerNo: 3, partners: [{ personId: at.visitor, ...over }] });
    at.refuses('seller.register', register({}), { code: 'not_allowed', field: 'partners' });
    const early = { how: 'deducted', amount: '25.00', memberUntil: '2026-01-01' };
    at.refuses('seller.register', register({ dues: early }), {
      ...{ code: 'malformed', field: 'partners.0.dues.memberUntil' },
    });
    at.must('seller.register', register({ dues: { how: 'deducted', amount: '25.00' } }));
    expect(partnerOf(at, 3)).toMatchObject({ sellsAs: 'member', dues: [{ amount: '25.00', how: 'deducted' }] });
    expect(netOf(at, 3)).toBe(-3000);
  });
});

describe('dues.void', () => {
  it('takes back the money and the membership, once, the newest first', () => {
    const at = hall();
    const first = at.must('dues.take', { ...dues, personId: at.guest });
    const second = at.must('dues.take', { ...dues, personId: at.guest, how: 'deducted' });
    const back = (duesId: number) => ({ duesId, reason: 'wrong person' });
    at.refusesUntyped('dues.void', back(first.duesId), { code: 'conflict', field: 'duesId' });
    at.must('dues.void', back(second.duesId));
    expect(partnerOf(at, 2)).toMatchObject({ partners: [{ membership: { words: /2027-02-28/ } }] });
    at.must('dues.void', back(first.duesId));
    at.refusesUntyped('dues.void', back(first.duesId), { code: 'already', field: 'duesId' });
    at.refusesUntyped('dues.void', back(99), { code: 'unknown', field: 'duesId' });
    expect(partnerOf(at, 2)).toMatchObject({ sellsAs: 'guest', dues: [] });
    expect([moneyIn(at), accountOf(at, 'Income:Dues'), netOf(at, 2)]).toEqual([0, 0, -500]);
  });

  it('leaves a membership alone that somebody has put right since', () => {
    const at = hall();
    const { duesId } = at.must('dues.take', { ...dues, personId: at.guest });
    at.must('person.amend', { personId: at.guest, name: 'Dot Ebner', memberUntil: '2030-12-31' });
    at.must('dues.void', { duesId, reason: 'paid twice' });
    expect(partnerOf(at, 2)).toMatchObject({ partners: [{ membership: { words: /2030-12-31/ } }] });
  });
});

describe('any dues, taken and taken back', () => {
  const act = fc.record({
    who: fc.constantFrom('guest', 'visitor', 'member'),
    how: fc.constantFrom('cash', 'check', 'card', 'deducted'),
    numbered: fc.boolean(),
    amount: fc
      .integer({ min: 1, max: 9999 })
      .map((cents) => `${Math.floor(cents / 100)}.${String(cents % 100).padStart(2, '0')}`),
    backTo: fc.option(fc.integer({ min: 1, max: 8 })),
  });

  it('stand in the drawer, in the journal and on the sheets to the cent, and the sale stays balanced', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 8 }), (acts) => {
        const at = hall();
        const nets = [netOf(at, 1) ?? 0, netOf(at, 2) ?? 0];
        const people = { guest: [at.guest, 2], visitor: [at.visitor, null], member: [1, 1] } as const;
        for (const { who, how, numbered, amount, backTo } of acts) {
          const [personId, own] = people[who];
          if (backTo !== null) at.give('dues.void', { duesId: backTo, reason: 'any' });
          else at.give('dues.take', { saleId: 1, personId, sellerNo: numbered ? own : null, how, amount });
        }
        const sum = (sql: string) =>
          at.book.sqlite.prepare(`SELECT coalesce(sum(amount_cents), 0) FROM ${sql}`).pluck().get();
        const stands = (table: string) =>
          `${table} WHERE voids_id IS NULL AND id NOT IN (SELECT voids_id FROM ${table} WHERE voids_id IS NOT NULL)`;
        const charged = (how: string) => sum(`${stands('charge')} AND how = '${how}'`) as number;
        const paid = (method: string) => sum(`${stands('payment')} AND method = '${method}'`) as number;
        const [cash, checks, cards] = [charged('cash') + paid('cash'), paid('check'), paid('card')];
        const deducted = charged('deducted');
        expect(moneyIn(at)).toBe(cash + checks + cards);
        const lying = ['Assets:Cash', 'Assets:Checks', 'Assets:Cards'].map((account) => accountOf(at, account));
        expect(lying).toEqual([cash, checks, cards]);
        expect(accountOf(at, 'Income:Dues') + cash + checks + cards + deducted).toBe(0);
        expect((netOf(at, 1) ?? 0) + (netOf(at, 2) ?? 0)).toBe((nets[0] ?? 0) + (nets[1] ?? 0) - deducted);
        expect(balanceProblems(at.book, 1)).toEqual([]);
        const now =
          'SELECT count(*) FROM person p JOIN particulars s ON s.person_id = p.id WHERE p.member_until IS NOT s.member_until';
        expect(at.book.sqlite.prepare(now).pluck().get()).toBe(0);
        at.book.close();
      }),
      { numRuns: 25 },
    );
  });
});
