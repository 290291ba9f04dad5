import { describe, expect, it } from 'vitest';
import { person } from '#db/schema/index.ts';
import { membershipOf } from '#lib/settlement/settlement.ts';
import { read } from '#tests/tidy/tree.ts';
import { demoBook } from './demo-book.ts';
import { findings } from './findings.ts';

const page = read('docs/demo.md');
const { book, sales } = demoBook();
const [now] = sales.slice(-1);
if (now === undefined) throw new Error('The demo has no sale.');
const found = findings(book, now);

describe('the tour of the demo', () => {
  it('names lots that are what it says', () => {
    const rows = [...page.matchAll(/^\| (\d+) \| ([^|]+) \|/gm)].map(([, lotNo, what]) => `${lotNo}: ${what}`);
    expect(rows.length).toBeGreaterThan(10);
    expect(rows.filter((row) => !found.includes(row))).toEqual([]);
  });

  it('counts the lots that are called', () => {
    const { outcomes, lots } = now.facts;
    expect(page).toContain(`lots 1 to ${outcomes.length} of ${lots.length}`);
  });

  it('points at the right seller numbers and buyers', () => {
    const { sellers, charges, payments, sale } = now.facts;
    const number = (pattern: RegExp) => Number.parseInt(pattern.exec(page)?.[1] ?? '', 10);
    const seller = (sellerNo: number) => sellers.find((one) => one.sellerNo === sellerNo);
    const parts = (sellerNo: number) => seller(sellerNo)?.partners.map((one) => one.parts);
    expect(parts(number(/seller number (\d+) is two/))).toEqual([1, 1]);
    expect(parts(number(/; (\d+) is three/))).toEqual([2, 1, 1]);
    const guest = seller(number(/seller number (\d+) comes from Wyoming/));
    expect(membershipOf(guest ?? { partners: [] }, sale.heldOn)).toBe('guest');
    const renewed = number(/seller number (\d+) renewed/);
    expect(charges.some((one) => one.sellerNo === renewed && one.kind === 'dues' && one.how === 'deducted')).toBe(true);
    const lapsed = seller(number(/run out\*\*: seller number (\d+)/))?.partners[0]?.personId;
    const expires = book.db
      .select()
      .from(person)
      .all()
      .find(({ ref }) => ref === lapsed)?.licenceExpires;
    expect(expires && expires < sale.heldOn).toBe(true);
    expect([...new Set(payments.map((one) => one.buyerNo))]).toEqual([number(/number (\d+) has paid/)]);
  });
});
