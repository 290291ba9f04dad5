/** The deposit slip read back from the page. */
import { describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { saleById } from '#db/book/find.ts';
import { payoutPapers } from '#db/settlement/papers.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { missingFrom, textsOf } from '#tests/papers/support/list-texts.ts';
import { checked, oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { OF_ELEVEN, OF_TEN, paidHall } from '#tests/support/sales.ts';

describe('the deposit slip', () => {
  it('lists every check, the cash and the total, and says when it is void', async () => {
    const { book, must } = paidHall();
    must('bank.deposit', { saleId: 1, paymentIds: [OF_TEN, OF_ELEVEN], cash: '30.00' });
    const sale = saleById(book, 1);
    if (!sale) throw new Error('no sale');
    const slips = (deposit: string | null) =>
      (payoutPapers(book, sale, { paper: 'deposit-slip', drawnOn: '2026-03-02', check: null, deposit }) ??
        []) as ListPaper[];
    const back = readBack(await renderSheets(slips('1'), { size: 'letter' }));
    expect(missingFrom(back.text, slips('1').flatMap(textsOf))).toEqual([]);
    const text = oneSpaced(back.text);
    // 111.83 + 223.65 = 335.48; with the cash 365.48.
    for (const line of ['2 checks 335.48', 'Cash 30.00', 'Deposit 365.48', '7001 February 28, 2026 111.83']) {
      expect(text).toContain(line);
    }
    expect(text).not.toContain('is void');
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    must('deposit.void', { depositId: 1, reason: 'another bag' });
    expect(slips(null)).toEqual([]);
    const after = readBack(await renderSheets(slips('1'), { size: 'a4' }));
    expect(oneSpaced(after.text)).toContain('This deposit is void: another bag');
  });
});
