import { describe, expect, it } from 'vitest';
import { lotsAskedFor, readTicketRequest } from '#lib/paper/tickets.ts';
import { paperLot } from '#tests/papers/support/lots.ts';

const NOTHING = { stock: '', start: '', right: '', down: '' };

describe('what is asked for', () => {
  it('is the first label of a sheet, not moved, where nothing is typed', () => {
    expect(readTicketRequest(NOTHING)).toEqual({
      ok: true,
      value: { stock: 'labels', start: 1, offset: { rightTenthsMm: 0, downTenthsMm: 0 } },
    });
  });

  it('is read as typed', () => {
    expect(readTicketRequest({ stock: 'halves', start: '7', right: '1.5', down: '-0.8' })).toEqual({
      ok: true,
      value: { stock: 'halves', start: 7, offset: { rightTenthsMm: 15, downTenthsMm: -8 } },
    });
  });

  it('is refused with all that is wrong at once, each at its field', () => {
    const read = readTicketRequest({ stock: 'napkins', start: '31', right: '1,5', down: '99' });
    if (read.ok) throw new Error('it was taken');
    const all = [read, ...(read.also ?? [])];
    expect(all.map(({ field, code }) => [field, code])).toEqual([
      ['stock', 'malformed'],
      ['start', 'malformed'],
      ['right', 'malformed'],
      ['down', 'too_large'],
    ]);
    for (const { message } of all) expect(message).toMatch(/\.$/);
  });
});

describe('whose lots', () => {
  const lots = ['12', '3', '12A', '101'].map((no, at) => paperLot(no, { sellerNo: at < 2 ? 4 : 5 }));
  const numbers = (whose: { seller?: string; lot?: string }) => {
    const asked = lotsAskedFor(lots, { saleId: 4, seller: '', lot: '', ...whose });
    return asked.ok ? asked.value.map(({ lotNo }) => lotNo) : asked;
  };

  it('are all of them by number, one seller’s, or one, typed or scanned', () => {
    expect(numbers({})).toEqual(['3', '12', '12A', '101']);
    expect(numbers({ seller: '4' })).toEqual(['3', '12']);
    expect(numbers({ seller: ' 05 ' })).toEqual(['12A', '101']);
    expect(numbers({ lot: '12a' })).toEqual(['12A']);
    expect(numbers({ lot: 'S4LOT12A' })).toEqual(['12A']);
  });

  it('are none where there are none, and why is said', () => {
    expect(numbers({ seller: '6' })).toMatchObject({ code: 'unknown', field: 'seller' });
    expect(numbers({ lot: '13' })).toMatchObject({ code: 'unknown', field: 'lot' });
    expect(numbers({ lot: 'S5LOT12' })).toMatchObject({ code: 'unknown', field: 'lot' });
    expect(numbers({ lot: '1x2' })).toMatchObject({ code: 'malformed', field: 'lot' });
    expect(lotsAskedFor([], { saleId: 4, seller: '', lot: '' })).toMatchObject({ ok: false, code: 'unknown' });
  });
});
