import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo, parseLotNo, readLot } from '#lib/lot/number.ts';
import { isTicketText, ticketText } from '#lib/lot/ticket.ts';

const anyLotNo = fc
  .tuple(fc.integer({ min: 1, max: 99_999 }), fc.constantFrom('', ...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'))
  .map(([number, letter]) => lotNo(`${number}${letter}`));
const anySale = fc.integer({ min: 1, max: 999_999_999 });

describe('the text of a ticket', () => {
  it('is letters and digits, the lot number at its end', () => {
    expect(ticketText(4, lotNo('12A'))).toBe('S4LOT12A');
  });

  it('is read back for every lot of every sale, also where Caps Lock was on', () => {
    fc.assert(
      fc.property(anyLotNo, anySale, (lot, sale) => {
        const text = ticketText(sale, lot);
        expect(readLot(text, sale)).toEqual({ ok: true, value: lot });
        expect(readLot(` ${text.toLowerCase()} `, sale)).toEqual({ ok: true, value: lot });
      }),
    );
  });

  // The alphanumeric mode of QR (ISO/IEC 18004, table of 45 characters; from memory): digits, capitals and nine signs.
  it('holds only what the short mode of QR takes', () => {
    fc.assert(fc.property(anyLotNo, anySale, (lot, sale) => /^[0-9A-Z $%*+\-./:]+$/.test(ticketText(sale, lot))));
  });
});

describe('a ticket of another sale', () => {
  it('opens no lot, and says what to do', () => {
    fc.assert(
      fc.property(anyLotNo, anySale, anySale, (lot, sale, other) => {
        fc.pre(sale !== other);
        const read = readLot(ticketText(other, lot), sale);
        expect(read).toMatchObject({ ok: false, code: 'unknown', field: 'lotNo' });
        expect(read.ok ? '' : read.message).toContain(`lot ${lot} by its seller`);
      }),
    );
  });
});

describe('what is typed by hand', () => {
  it.each(['12', '12a', '0012', '', '12 A', 'LOT12', 'S4', 'S4LOT', 'LOT', '12AB', 'Ł12'])(
    '“%s” is read as any lot number is',
    (text) => {
      expect(isTicketText(text)).toBe(false);
      expect(readLot(text, 4)).toEqual(parseLotNo(text));
    },
  );

  it.each(['S4LOT0', 'S4LOT123456', 'S4LOT00012'])(
    '%s looks like a ticket, and its number is judged as one',
    (text) => {
      expect(isTicketText(text)).toBe(true);
      expect(readLot(text, 4)).toEqual(parseLotNo(text.slice('S4LOT'.length)));
    },
  );

  it('no name of a person is taken for a ticket', () => {
    for (const name of ['Scott', 'Lotte S4', 'S4LOT12AB', 'S4 LOT 12']) expect(isTicketText(name)).toBe(false);
  });
});
