import { describe, expect, it } from 'vitest';
import { caseFolder, columnsOf, csvOf, filesIn, placesIn, problemsIn } from '#tests/support/exchange.ts';

const RIGHT = filesIn(caseFolder('by-hand'));

interface Brought {
  readonly sellers: string;
  /** Seller number and pieces of each lot of bobcat, without tags: they wait. */
  readonly lots: readonly (readonly [seller: string, count: string])[];
}

/** A limit of 20 tagged bobcats a licence: common practice as a setting, no source. */
function season({ sellers, lots }: Brought) {
  const rows = lots.map(([seller_no, count], at) => ({
    lot_no: String(at + 1),
    seller_no,
    goods: 'bobcat',
    by: 'piece',
    count,
  }));
  return {
    'sale.json': RIGHT['sale.json'] ?? '',
    'people.csv': RIGHT['people.csv'] ?? '',
    'goods.csv': (RIGHT['goods.csv'] ?? '').replace('yes,BOB,', 'yes,BOB,20'),
    'sellers.csv': `seller_no,person_id,parts\n${sellers}`,
    'lots.csv': csvOf(columnsOf('lots.csv'), rows),
  };
}

describe('a season limit of 20 a licence', () => {
  it('takes the 20th piece and refuses the 21st', () => {
    expect(placesIn(season({ sellers: '1,P1,1\n', lots: [['1', '20']] }))).toEqual([]);
    expect(problemsIn(season({ sellers: '1,P1,1\n', lots: [['1', '21']] }))).toEqual([
      'lots.csv:2 count: Check the count and the seller: with this lot licence US-WY L1 brought 21 pieces of bobcat, and a season allows 20.',
    ]);
  });

  it('counts one licence over all its seller numbers, and tells it once', () => {
    const lots = [
      ['1', '12'],
      ['2', '8'],
      ['2', '1'],
      ['1', '5'],
    ] as const;
    expect(placesIn(season({ sellers: '1,P1,1\n2,P1,1\n', lots }))).toEqual(['lots.csv:4 count']);
    expect(placesIn(season({ sellers: '1,P1,1\n2,P2,1\n', lots }))).toEqual([]);
  });

  it('lets partners bring as much as their licences together', () => {
    const sellers = '1,P1,1\n1,P2,1\n';
    expect(placesIn(season({ sellers, lots: [['1', '40']] }))).toEqual([]);
    expect(
      placesIn(
        season({
          sellers,
          lots: [
            ['1', '40'],
            ['1', '1'],
          ],
        }),
      ),
    ).toEqual(['lots.csv:3 count']);
  });

  it('counts somebody without a licence by their person', () => {
    expect(
      placesIn(
        season({
          sellers: '1,P5,1\n2,P5,1\n',
          lots: [
            ['1', '20'],
            ['2', '1'],
          ],
        }),
      ),
    ).toEqual(['lots.csv:3 count']);
  });
});
