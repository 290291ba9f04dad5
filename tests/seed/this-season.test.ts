import { isNotNull } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { lotById, personByRef, saleById } from '#db/book/find.ts';
import { goodsChoices } from '#db/sale/goods.ts';
import { bid, lot, outcome, tag } from '#db/schema/index.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { ZERO } from '#lib/money/money.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { needsExportTag } from '#lib/sale/goods.ts';
import { membershipOf, settleSale } from '#lib/settlement/settlement.ts';
import { tagHead } from '#lib/tag/head.ts';
import { demoBook } from './demo-book.ts';

const { book, sales } = demoBook();
const [now] = sales.slice(-1);
if (now === undefined) throw new Error('The demo has no sale.');
const { facts } = now;
const lotRows = book.db.select().from(lot).all();
const outcomeRows = book.db.select().from(outcome).all();
const rowsNow = lotRows.filter(({ saleId }) => saleId === now.id);
const called = new Set(facts.outcomes.map(({ lotNo }) => lotNo));
const standing = (kind: string) => facts.outcomes.filter((one) => one.kind === kind);
const soldLots = facts.lots.filter(({ lotNo }) => standing('sold').some((one) => one.lotNo === lotNo));

describe('this season’s sale', () => {
  it('is half called, balances, and goes on', () => {
    expect(now.stage).toBe('selling');
    expect(called.size).toBe(Math.floor(facts.lots.length / 2));
    expect(saleBalance(facts).filter(({ difference }) => difference !== 0)).toEqual([]);
  });

  it('has tagged lots still on hold, one short of a tag and one with a broken one', () => {
    const faults = rowsNow.flatMap((row) => holdsOfLotId(book, lotById(book, row.id) ?? row));
    expect(faults.map(({ code }) => code).sort()).toEqual(['tag_broken', 'tag_missing']);
  });

  it('has two bobcats with tags of last season, and a number alone goes with the year of this one', () => {
    const sale = saleById(book, now.id);
    const season = sale && goodsChoices(book, sale).find(({ goods }) => goods === 'bobcat')?.seasonTags;
    expect(facts.lots.filter(({ goods }) => goods === 'bobcat').length).toBeGreaterThan(1);
    expect(season?.years).toEqual(['2026', '2027']);
    expect(season && tagHead(season)).toBe('US-CITES MT BOB 2026');
  });

  it('has left bids on lots to come, and one that took its lot', () => {
    const left = book.db
      .select()
      .from(bid)
      .all()
      .filter(({ kind }) => kind === 'left');
    const isCalled = (lotId: number) => outcomeRows.some((one) => one.lotId === lotId);
    expect(left.filter(({ lotId }) => !isCalled(lotId)).length).toBeGreaterThanOrEqual(2);
    const won = left.filter(({ lotId, priceCents, buyerId }) =>
      outcomeRows.some((o) => o.lotId === lotId && o.priceCents === priceCents && o.buyerId === buyerId),
    );
    expect(won).toHaveLength(1);
  });

  it('has partnerships with equal and unequal parts, guests, and names with diacritics', () => {
    const parts = facts.sellers.map(({ partners }) => partners.map((one) => one.parts).join(':'));
    expect(parts).toContain('1:1');
    expect(parts).toContain('2:1:1');
    const guests = facts.sellers.filter((seller) => membershipOf(seller, facts.sale.heldOn) === 'guest');
    expect(guests.length).toBeGreaterThanOrEqual(3);
    const names = facts.sellers.flatMap(({ partners }) => partners.map((one) => personByRef(book, one.personId)?.name));
    for (const letter of ['Ł', 'Ø', 'ř', 'ọ', 'ş', 'Δ', 'Ж']) {
      expect(
        names.some((name) => name?.includes(letter)),
        letter,
      ).toBe(true);
    }
  });

  it('has sold a donated lot, castor by the ounce, hides by the pound, and skulls by the lot', () => {
    expect(soldLots.some(({ donated }) => donated)).toBe(true);
    expect(soldLots.some(({ by, goods }) => by === 'oz' && goods === 'castor')).toBe(true);
    expect(soldLots.some(({ by }) => by === 'lb')).toBe(true);
    expect(soldLots.some(({ by }) => by === 'lot')).toBe(true);
  });

  it('has passed and withdrawn lots, and one that went below its minimum because the seller said yes', () => {
    expect(standing('passed').length).toBeGreaterThan(0);
    expect(standing('withdrawn').length).toBeGreaterThan(0);
    expect(outcomeRows.some(({ lotId, remarks }) => isNow(lotId) && remarks.includes('below_minimum'))).toBe(true);
  });

  it('has a hammer price put right, with both entries kept and the reason', () => {
    const replacing = book.db.select().from(outcome).where(isNotNull(outcome.replacesId)).all();
    const corrected = replacing.filter(({ lotId }) => isNow(lotId));
    expect(corrected.length).toBeGreaterThanOrEqual(1);
    for (const { replacesId, priceCents, reason } of corrected) {
      const first = outcomeRows.find(({ id }) => id === replacesId);
      expect(first?.priceCents).toBe((priceCents ?? 0) * 10);
      expect(reason).toContain('the hammer fell at');
    }
  });

  it('has one buyer who has paid everything and others who have paid nothing', () => {
    const owed = invoiceSale(facts).map(({ buyerNo, totalCents }) => {
      const paid = facts.payments.filter((one) => one.buyerNo === buyerNo);
      return { totalCents, paidCents: paid.reduce((so, { amountCents }) => so + amountCents, 0) };
    });
    expect(owed.filter(({ totalCents, paidCents }) => paidCents === totalCents)).toHaveLength(1);
    expect(owed.filter(({ paidCents }) => paidCents === 0)).toHaveLength(owed.length - 1);
    expect(owed.length).toBeGreaterThan(5);
  });

  it('takes somebody’s dues from the proceeds', () => {
    const deducted = facts.charges.filter(({ kind, how }) => kind === 'dues' && how === 'deducted');
    expect(deducted.length).toBeGreaterThan(0);
    const paying = settleSale(facts).find(({ sellerNo }) => sellerNo === deducted[0]?.sellerNo);
    expect(paying?.chargesCents).toBeGreaterThan(ZERO);
  });

  it('has one seller from this State whose licence has run out', () => {
    const lapsed = facts.sellers.flatMap(({ partners }) =>
      partners.flatMap(({ personId }) => {
        const person = personByRef(book, personId);
        return person?.licenceExpires && person.licenceExpires < facts.sale.heldOn ? [person.name] : [];
      }),
    );
    expect(lapsed).toHaveLength(1);
  });

  it('takes goods from another State under that State’s tags, and green and whole goods', () => {
    const outside = rowsNow.filter(({ takenIn, id }) => takenIn === 'US-WY' && tagsOf(id).length > 0);
    expect(outside.length).toBeGreaterThan(0);
    for (const { id } of outside) for (const one of tagsOf(id)) expect(one.tag).toContain('US-CITES WY ');
    expect(rowsNow.map(({ form }) => form)).toEqual(expect.arrayContaining(['green', 'carcass']));
  });
});

function isNow(lotId: number): boolean {
  return rowsNow.some(({ id }) => id === lotId);
}

const tagRows = book.db.select().from(tag).all();
function tagsOf(lotId: number) {
  return tagRows.filter((row) => row.lotId === lotId);
}

describe('export tags over the years', () => {
  it('stand once in the whole book, but for two pieces that went home and came back', () => {
    const live = tagRows.filter((row) => row.live).map((row) => row.tag);
    expect(new Set(live).size).toBe(live.length);
    expect(live.length).toBeGreaterThan(50);
    expect(tagRows.filter(({ cameBackFromId }) => cameBackFromId !== null)).toHaveLength(2);
  });

  it('are asked of the two kinds of 50 CFR 23.69(a) that the sale takes, and of no other goods', () => {
    for (const { facts: one } of sales) {
      const asked = one.goods.filter(({ exportTag }) => exportTag).map(({ scientificName }) => scientificName);
      expect(asked).toEqual(['Lynx rufus', 'Lontra canadensis']);
      expect(one.goods.filter(({ scientificName }) => needsExportTag(scientificName))).toHaveLength(2);
    }
  });

  it('never go beyond the season limit of a licence', () => {
    for (const { facts: one } of sales) {
      for (const { goods, seasonLimit } of one.goods) {
        if (seasonLimit === null) continue;
        for (const { sellerNo } of one.sellers) {
          const own = one.lots.filter((each) => each.goods === goods && each.sellerNo === sellerNo);
          expect(own.reduce((so, { count }) => so + (count ?? 0), 0)).toBeLessThanOrEqual(seasonLimit);
        }
      }
    }
  });
});
