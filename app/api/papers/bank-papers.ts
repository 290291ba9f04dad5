import 'server-only';
import { type SaleRequest, saleRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { CSV_TYPE, fileResponse } from '#app/server/responses.ts';
import { reconciliationFile, reconciliationOf } from '#db/bank/bank-view.ts';
import { answerPapers } from './answer.ts';

const typedIn = ({ word }: SaleRequest) => ({
  ...{ day: word('day') ?? '', statement: word('statement') ?? '', other: word('other') ?? '' },
});

/** The account beside the statement, as the page compares them: `?day=2026-03-31&statement=512.40&other=100`. */
export const bankReconciliation = saleRoute(['payout'], (asked) => {
  const { book, request } = asked;
  const papers = [reconciliationOf(book, typedIn(asked), today(book))];
  return answerPapers({ book, papers, name: 'bank-reconciliation', none: 'There is nothing to print.', request });
});

export const bankReconciliationCsv = saleRoute(['payout'], (asked) =>
  fileResponse(reconciliationFile(asked.book, typedIn(asked), today(asked.book)), {
    ...{ name: 'bank-reconciliation.csv', type: CSV_TYPE },
  }),
);
