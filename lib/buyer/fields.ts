/** What a buyer shows at the Till, once: the input of the commands, the row, `buyers.csv` and the form follow from it. */
import type { AnyField, Facts, InFolder, Typed } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { LICENCE_FIELDS } from '#lib/person/fields.ts';

const { licenceNo, licenceRegion, licenceExpires } = LICENCE_FIELDS;

export const BUYER_FIELDS = {
  licenceNo: { ...licenceNo, label: 'Fur buyer’s licence' },
  licenceRegion: { ...licenceRegion, column: null },
  licenceExpires: { ...licenceExpires, column: null },
  /** Warns where what is owing goes beyond it. */
  limit: {
    ...{ kind: KIND.orNull(KIND.amount()), empty: null, column: null },
    label: 'Limit',
    hint: 'Warns beyond it; empty for none',
  },
  taxExempt: { kind: KIND.flag, empty: false, column: KIND.flag, label: 'Pays no sales tax' },
  exemptNo: { kind: KIND.words, empty: '', column: KIND.words, label: 'Number of the exemption' },
} as const satisfies Readonly<Record<string, AnyField>>;

export type BuyerInFolder = Facts<InFolder<typeof BUYER_FIELDS>>;
export type BuyerAsTyped = Typed<typeof BUYER_FIELDS>;
