import { amountLineOf } from '#app/(stations)/block/preview.ts';
import { TextField } from '#app/ui/text-field.tsx';
import type { BlockView } from '#db/queries/block-view.ts';
import type { Measured } from '#lib/facts.ts';
import { buyerWords } from '../call-fields.tsx';
import { REASONS } from './reasons.ts';
import type { PuttingRight } from './use-put-right.ts';

interface PutRightFieldsProps {
  readonly right: PuttingRight;
  readonly measured: Measured;
  readonly buyers: BlockView['buyers'];
}

/** Price, buyer and reason of a lot that is put right. */
export function PutRightFields({ right, measured, buyers }: PutRightFieldsProps) {
  const { said, change, fields, refusal } = right;
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  return (
    <div className="call-fields">
      <TextField
        ref={fields.price}
        label="Price"
        inputMode="decimal"
        value={said.price}
        error={errorOf('price')}
        onChange={(event) => change({ kind: 'sold', price: event.target.value })}
      />
      <TextField
        ref={fields.buyer}
        label="Buyer number"
        inputMode="numeric"
        value={said.buyer}
        error={errorOf('buyerNo')}
        onChange={(event) => change({ kind: 'sold', buyer: event.target.value })}
      />
      <output className="call-amount" aria-live="off">
        <span className="figure-large">
          {said.kind === 'sold' ? amountLineOf(said.price, measured) : BECOMES[said.kind]}
        </span>
        <span>{said.kind === 'sold' && buyerWords(buyers, said.buyer)}</span>
      </output>
      <div className="put-right-reason">
        <TextField
          ref={fields.reason}
          label="Reason"
          hint={`${REASONS.map((words, at) => `${at + 1} ${words}`).join(', ')}; or write why.`}
          value={said.reason}
          error={errorOf('reason')}
          onChange={(event) => change({ reason: event.target.value })}
        />
      </div>
    </div>
  );
}

const BECOMES = { passed: 'No-sale', withdrawn: 'Withdrawn' } as const;
