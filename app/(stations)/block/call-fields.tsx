import { amountLineOf } from '#app/(stations)/block/preview.ts';
import { TextField } from '#app/ui/text-field.tsx';
import type { BlockView } from '#db/queries/block-view.ts';
import { readBuyerNo } from './buyer.ts';
import type { Call } from './use-call.ts';

interface CallFieldsProps {
  readonly call: Call;
  readonly buyers: BlockView['buyers'];
}

/** The two fields of a lot, and what they come to before anything is saved. */
export function CallFields({ call, buyers }: CallFieldsProps) {
  const { draft, lot, refusal } = call;
  const errorOf = (field: string) => (refusal?.field === field ? refusal.message : undefined);
  return (
    <div className="call-fields">
      <TextField
        ref={call.priceField}
        label={`Price ${lot?.standsFor ?? ''}`}
        name="price"
        inputMode="decimal"
        value={draft.price}
        error={errorOf('price')}
        onChange={(event) => call.type({ price: event.target.value })}
      />
      <TextField
        ref={call.buyerField}
        label="Buyer number"
        name="buyer"
        inputMode="numeric"
        value={draft.buyer}
        error={errorOf('buyerNo')}
        onChange={(event) => call.type({ buyer: event.target.value })}
      />
      {draft.time !== null && (
        <TextField
          ref={call.timeField}
          label="Time on the paper"
          hint="Such as 14:05 or 1405."
          name="time"
          inputMode="numeric"
          value={draft.time}
          error={errorOf('hammerAt')}
          onChange={(event) => call.type({ time: event.target.value })}
        />
      )}
      <output className="call-amount" aria-live="off">
        <span className="figure-large">{lot ? amountLineOf(draft.price, lot) : ''}</span>
        <span>{buyerWords(buyers, draft.buyer)}</span>
      </output>
    </div>
  );
}

/** The name behind a buyer number as typed, with what the clerk should know of the buyer before the hammer falls. */
export function buyerWords(buyers: BlockView['buyers'], typed: string): string {
  const buyer = buyers.find(({ buyerNo }) => buyerNo === readBuyerNo(typed));
  if (!buyer) return '';
  const { name, cleared, limit } = buyer;
  return [name, cleared ? '' : 'not cleared', limit].filter((words) => words !== '').join(', ');
}
