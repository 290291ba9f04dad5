import { describe, expect, it } from 'vitest';
import { type DuesTyped, duesSaid } from '#app/(stations)/intake/dues-fields.tsx';

const typed: DuesTyped = { how: 'check', amount: '25.00', memberUntil: '2027-02-28', reference: '1042' };

describe('what is sent of dues', () => {
  it('is nothing where none are taken, and the number of a check only where there is a check', () => {
    expect(duesSaid({ ...typed, how: '' })).toBeNull();
    expect(duesSaid(typed)).toEqual(typed);
    expect(duesSaid({ ...typed, how: 'cash' })).toEqual({ ...typed, how: 'cash', reference: '' });
    expect(duesSaid({ ...typed, how: 'deducted' })).toEqual({ ...typed, how: 'deducted', reference: '' });
  });
});
