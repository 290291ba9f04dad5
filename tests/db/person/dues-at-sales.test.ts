/** What dues and amendments do to the sales of one person: the one that is being settled, and those held after it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { sellerView } from '#db/seller/queries.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

const partnerOf = ({ book }: Hall, sellerNo: number) => {
  const sale = saleById(book, 1);
  return sale && sellerView(book, sale, sellerNo);
};
const netOf = ({ book }: Hall, sellerNo: number) =>
  settleSale(saleFacts(book, 1)).find((one) => one.sellerNo === sellerNo)?.netCents;

/** The sale of the hall is being settled; Dot (person 4) is a guest there. Sale 2 is held a month later, sale 3 on the same day as that. */
function threeSales() {
  const own = openHall();
  const { must } = own;
  const dot = must('person.enrol', { name: 'Dot Ebner' }).personId;
  must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: dot }] });
  must('lot.add', { saleId: 1, sellerNo: 2, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 10 });
  must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
  for (const [saleId, name] of [
    [2, 'Spring Sale'],
    [3, 'Spring Sale, Second Hall'],
  ] as const) {
    must('sale.plan', { sale: { ...SALE, name, held_on: '2026-03-28' }, goods: GOODS });
    must('sale.stage', { saleId, stage: 'intake', reason: '' });
  }
  return { ...own, dot } as const;
}

const stands = ({ book }: Hall) =>
  book.sqlite
    .prepare(
      `SELECT sale_id AS saleId, member_until AS memberUntil FROM particulars WHERE person_id = 4
       UNION ALL SELECT 0, member_until FROM person WHERE id = 4 ORDER BY saleId`,
    )
    .all() as { readonly saleId: number; readonly memberUntil: string | null }[];
const standsAt = (at: Hall) => stands(at).map(({ saleId, memberUntil }) => `${saleId}: ${memberUntil ?? 'guest'}`);

describe('dues at the table of a later sale', () => {
  it('leave the net of the sale that is being settled to the cent, and say so', () => {
    const at = threeSales();
    // 200.00 at 10 % is 20.00, with 5.00 for the number and 0.25 for the lot.
    expect(netOf(at, 2)).toBe(17_475);
    const paid = { how: 'cash', amount: '25.00', memberUntil: '2026-12-31' } as const;
    const partners = [{ personId: at.dot, dues: paid }] as const;
    expect(at.must('seller.register', { saleId: 2, sellerNo: 1, partners })).toMatchObject({
      unchanged: ['Late Winter Sale'],
    });
    expect(netOf(at, 2)).toBe(17_475);
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: guest', '2: 2026-12-31']);
    const sale = saleById(at.book, 2);
    const view = sale && sellerView(at.book, sale, 1);
    expect(view).toMatchObject({ sellsAs: 'member', dues: [{ unchanged: ['Late Winter Sale'] }] });
    // The address still reaches both, and no membership comes along with it.
    at.must('person.amend', { personId: at.dot, name: 'Dot Ebner', city: 'Harrow', memberUntil: '2026-12-31' });
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: guest', '2: 2026-12-31']);
    const towns = at.book.sqlite.prepare('SELECT DISTINCT city FROM particulars WHERE person_id = 4').pluck().all();
    expect(towns).toEqual(['Harrow']);
    at.must('dues.void', { duesId: 1, reason: 'wrong person' });
    expect(standsAt(at)).toEqual(['0: guest', '1: guest', '2: guest']);
    expect(netOf(at, 2)).toBe(17_475);
    expect(checkReplay(at.book.sqlite)).toMatchObject({ ok: true });
  });

  it('reach the sales of that day and later; dues at the earlier table are taken back to what stood at each', () => {
    const at = threeSales();
    for (const saleId of [2, 3]) at.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: at.dot }] });
    const first = {
      saleId: 3,
      personId: at.dot,
      sellerNo: 1,
      how: 'cash',
      amount: '25.00',
      memberUntil: '2026-12-31',
    } as const;
    expect(at.must('dues.take', first)).toMatchObject({ unchanged: ['Late Winter Sale'] });
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: guest', '2: 2026-12-31', '3: 2026-12-31']);
    const second = at.must('dues.take', { ...first, saleId: 1, sellerNo: 2, memberUntil: '2027-12-31', counts: true });
    expect(standsAt(at)).toEqual(['0: 2027-12-31', '1: 2027-12-31', '2: 2027-12-31', '3: 2027-12-31']);
    // At 6 % it is 12.00.
    expect(netOf(at, 2)).toBe(18_275);
    at.must('dues.void', { duesId: second.duesId, reason: 'wrong table' });
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: guest', '2: 2026-12-31', '3: 2026-12-31']);
    expect(checkReplay(at.book.sqlite)).toMatchObject({ ok: true });
  });

  it('are shown as they are now to whoever edits the person at the earlier table', () => {
    const at = threeSales();
    at.must('seller.register', { saleId: 2, sellerNo: 1, partners: [{ personId: at.dot }] });
    at.must('dues.take', { saleId: 2, personId: at.dot, sellerNo: 1, how: 'cash', amount: '25.00' });
    expect(partnerOf(at, 2)).toMatchObject({
      sellsAs: 'guest',
      partners: [{ membership: { state: 'guest' }, typed: { memberUntil: 'Mar 28, 2027' } }],
    });
  });
});

describe('a membership that is changed by hand', () => {
  it('reaches the sales that are not yet settled, and one that goes back to selling', () => {
    const at = threeSales();
    at.must('seller.register', { saleId: 2, sellerNo: 1, partners: [{ personId: at.dot }] });
    const amend = () => at.must('person.amend', { personId: at.dot, name: 'Dot Ebner', memberUntil: '2026-12-31' });
    amend();
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: guest', '2: 2026-12-31']);
    at.must('sale.stage', { saleId: 1, stage: 'selling', reason: 'she was a member all along' });
    amend();
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: 2026-12-31', '2: 2026-12-31']);
  });
});

describe('a membership that is put right by hand to the very day that dues had bought', () => {
  function atTwoTables() {
    const at = threeSales();
    for (const saleId of [2, 3]) at.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: at.dot }] });
    const take = (saleId: number, memberUntil: string) => {
      const sellerNo = saleId === 1 ? 2 : 1;
      const input = {
        saleId,
        personId: at.dot,
        sellerNo,
        how: 'cash',
        amount: '25.00',
        memberUntil,
        counts: true,
      } as const;
      return at.give('dues.take', input);
    };
    const taken = (saleId: number, memberUntil: string) => {
      const answer = take(saleId, memberUntil);
      if (!answer.ok) throw new Error(answer.message);
      return answer.value.duesId;
    };
    const stage = (to: 'selling' | 'settling') => at.must('sale.stage', { saleId: 1, stage: to, reason: 'any' });
    const amend = (memberUntil: string) =>
      at.must('person.amend', { personId: at.dot, name: 'Dot Ebner', memberUntil });
    const takeBack = (duesId: number) => at.must('dues.void', { duesId, reason: 'any' });
    return { ...at, take, taken, stage, amend, takeBack } as const;
  }

  it('stands wherever the amendment reached once the dues are taken back', () => {
    const at = atTwoTables();
    const duesId = at.taken(2, '2028-12-31');
    at.stage('selling');
    at.amend('');
    at.amend('2028-12-31');
    at.takeBack(duesId);
    expect(standsAt(at)).toEqual(['0: 2028-12-31', '1: 2028-12-31', '2: 2028-12-31', '3: 2028-12-31']);
    expect(checkReplay(at.book.sqlite)).toMatchObject({ ok: true });
  });

  it('stands after older dues to that day are taken back too', () => {
    const at = atTwoTables();
    const older = at.taken(3, '2027-12-31');
    at.stage('selling');
    const newer = at.taken(1, '2029-12-31');
    at.amend('2027-12-31');
    at.takeBack(newer);
    expect(at.take(1, '2026-12-31')).toMatchObject({ ok: false, code: 'already' });
    at.takeBack(older);
    const byHand = ['0: 2027-12-31', '1: 2027-12-31', '2: 2027-12-31', '3: 2027-12-31'];
    expect(standsAt(at)).toEqual(byHand);
    at.stage('settling');
    expect(at.take(1, '2026-12-31')).toMatchObject({ ok: false, code: 'already' });
    at.amend('2026-12-31');
    expect(standsAt(at)).toEqual(['0: 2026-12-31', '1: 2027-12-31', '2: 2026-12-31', '3: 2026-12-31']);
    expect(checkReplay(at.book.sqlite)).toMatchObject({ ok: true });
  });

  it('does not stand at a sale that was being settled and that it did not reach', () => {
    const at = atTwoTables();
    const duesId = at.taken(1, '2028-12-31');
    at.amend('');
    at.amend('2028-12-31');
    at.takeBack(duesId);
    expect(standsAt(at)).toEqual(['0: 2028-12-31', '1: guest', '2: 2028-12-31', '3: 2028-12-31']);
  });
});

describe('any dues, amendments and stages of three sales', () => {
  const day = fc.constantFrom('2026-12-31', '2027-12-31', '2028-12-31', '2029-12-31');
  const act = fc.oneof(
    { weight: 4, arbitrary: fc.record({ do: fc.constant('take' as const), saleId: fc.constantFrom(1, 2, 3), day }) },
    { weight: 3, arbitrary: fc.constant({ do: 'void' as const }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant('amend' as const), day: fc.oneof(day, fc.constant('')) }) },
    { weight: 1, arbitrary: fc.constant({ do: 'address' as const }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant('stage' as const), selling: fc.boolean() }) },
  );
  type Taken = {
    readonly duesId: number;
    readonly saleId: number;
    readonly before: string[];
    readonly amended: number;
  };

  it('never reach a sale held earlier, and going back they leave each sale as it stood', () => {
    fc.assert(
      fc.property(fc.array(act, { minLength: 6, maxLength: 16 }), (acts) => {
        const at = threeSales();
        for (const saleId of [2, 3]) {
          at.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: at.dot }] });
        }
        const standing: Taken[] = [];
        let amended = 0;
        const earlier = (saleId: number) => (saleId === 1 ? [] : standsAt(at).filter((one) => one.startsWith('1:')));
        for (const one of acts) {
          const before = standsAt(at);
          const stage = saleById(at.book, 1)?.stage;
          if (one.do === 'take') {
            const { saleId, day: memberUntil } = one;
            const kept = earlier(saleId);
            const sellerNo = saleId === 1 ? 2 : 1;
            const input = { saleId, personId: at.dot, sellerNo, how: 'cash', amount: '25.00', memberUntil } as const;
            const answer = at.give('dues.take', input);
            expect(earlier(saleId)).toEqual(kept);
            if (answer.ok) standing.push({ duesId: answer.value.duesId, saleId, before, amended });
          } else if (one.do === 'void') {
            const last = standing.pop();
            if (!last) continue;
            const kept = earlier(last.saleId);
            at.must('dues.void', { duesId: last.duesId, reason: 'any' });
            expect(earlier(last.saleId)).toEqual(kept);
            if (last.amended === amended) expect(standsAt(at)).toEqual(last.before);
          } else if (one.do === 'amend' || one.do === 'address') {
            const now = stands(at)[0]?.memberUntil ?? '';
            const memberUntil = one.do === 'amend' ? one.day : now;
            at.must('person.amend', { personId: at.dot, name: 'Dot Ebner', memberUntil });
            if (stage === 'settling') expect(standsAt(at)[1]).toBe(before[1]);
            if (memberUntil !== now) amended += 1;
            else if (standing.length > 0 && amended === 0) expect(standsAt(at)).toEqual(before);
          } else if (one.selling !== (stage === 'selling')) {
            at.must('sale.stage', { saleId: 1, stage: one.selling ? 'selling' : 'settling', reason: 'any' });
          }
        }
        expect(checkReplay(at.book.sqlite)).toMatchObject({ ok: true });
        at.book.close();
      }),
      { numRuns: 60 },
    );
  });
});
