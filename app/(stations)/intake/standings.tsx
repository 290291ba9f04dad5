import { Mark, type Tone } from '#app/ui/marks.tsx';
import { Unbroken } from '#app/ui/text.tsx';
import type { SaleRow } from '#db/book/find.ts';
import type { FoundPerson } from '#db/person/queries.ts';
import { cents, formatMoney } from '#lib/money/money.ts';
import type { LicenceState, MembershipState } from '#lib/person/person.ts';

const MEMBERSHIP: Readonly<Record<MembershipState, Tone>> = { paid: 'done', lapsed: 'wait', guest: 'open' };
const LICENCE: Readonly<Record<LicenceState, Tone>> = {
  good: 'done',
  expired: 'stop',
  undated: 'wait',
  missing: 'stop',
};

/** Membership and licence, each a word with its shape. */
export function Standings({ membership, licence }: Pick<FoundPerson, 'membership' | 'licence'>) {
  return (
    <p className="standings">
      <SentenceMark tone={MEMBERSHIP[membership.state]} words={membership.words} />{' '}
      <SentenceMark tone={LICENCE[licence.state]} words={licence.words} />
    </p>
  );
}

/** A state in several words, of which a day or a number is never broken over two lines. */
export function SentenceMark({ tone, words }: { readonly tone: Tone; readonly words: string }) {
  return (
    <Mark tone={tone}>
      <span>
        <Unbroken>{words}</Unbroken>
      </span>
    </Mark>
  );
}

/** What of a sale's terms the check-in table goes by. */
export interface TableRules {
  readonly saleId: number;
  /** ISO 8601 date of the sale. */
  readonly heldOn: string;
  /** The sale's dues as they would be typed, such as 25.00; empty where it takes none. */
  readonly dues: string;
  /** The day to which dues are taken, or null where they run for a year. */
  readonly duesUntil: string | null;
}

export function tableRules({ id, heldOn, duesCents, duesUntil }: SaleRow): TableRules {
  return { saleId: id, heldOn, duesUntil, dues: duesCents === 0 ? '' : formatMoney(cents(duesCents)) };
}
