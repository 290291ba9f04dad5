import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('buyer.register', () => {
  const { book, saleId, must, refusesUntyped } = openHall();
  const { personId } = must('person.enrol', { name: 'Dee Elm', city: 'Harrow' });
  const fields = { saleId, personId };

  it('gives the next free number, with what was shown and who cleared it', () => {
    const shown = {
      licenceNo: 'FB1',
      licenceRegion: 'US-WY',
      taxExempt: true,
      exemptNo: 'X1',
      cleared: true,
      limit: '500',
    };
    expect(must('buyer.register', { ...fields, ...shown })).toMatchObject({ buyerNo: 13 });
    const row = {
      licence_no: 'FB1',
      tax_exempt: 1,
      exempt_no: 'X1',
      cleared: 1,
      cleared_by: 'Ada',
      limit_cents: 50000,
    };
    expect(rowsOf(book).buyer?.at(-1)).toMatchObject(row);
    expect(rowsOf(book).particulars?.at(-1)).toMatchObject({ person_id: personId, city: 'Harrow' });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ personId: 99 }, 'unknown', 'personId'],
    [{ buyerNo: 10 }, 'taken', 'buyerNo'],
    [{ buyerNo: 0 }, 'malformed', 'buyerNo'],
    [{ buyerNo: 20.5 }, 'malformed', 'buyerNo'],
    [{ taxExempt: true }, 'missing', 'exemptNo'],
    [{ limit: '-1' }, 'malformed', 'limit'],
    [{ licenceRegion: 'Wyoming' }, 'malformed', 'licenceRegion'],
    [{ licenceExpires: '2026-02-30' }, 'malformed', 'licenceExpires'],
    [{ cleared: 'yes' }, 'malformed', 'cleared'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('buyer.register', { ...fields, ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    const closed = openHall({ stage: 'closed' });
    closed.refuses('buyer.register', { saleId, personId: 1 }, { code: 'wrong_stage', field: 'saleId' });
  });
});
