'use client';

import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { typedInWords } from '#lib/payment/amount-words.ts';

interface WriteOffProps {
  readonly saleId: number;
  readonly who: { readonly buyerNo?: number; readonly sellerNo?: number; readonly personId?: number };
  readonly name: string;
  /** All that is owed, as it would be typed. */
  readonly amount: string;
}

/** Gives up a debt that nobody expects any more. */
export function WriteOff({ saleId, who, name, amount }: WriteOffProps) {
  return (
    <FoldedAsk
      {...{ station: 'payout', command: 'payment.writeoff' }}
      inputOf={(reason) => ({ saleId, buyerNo: null, sellerNo: null, personId: null, ...who, amount, reason })}
      summary={`Write off ${typedInWords(amount)} of ${name}`}
      entry={`Debt of ${name} written off`}
      asks={{
        label: 'Why it is given up',
        hint: 'It becomes an expense. Fur that is still here stays here: put it down as not paid for at the Till instead',
      }}
      act="Write off"
    />
  );
}
