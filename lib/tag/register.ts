/** The register of export tags: which tag came with which lot, from whose licence, to which buyer. */
import { compareLotNo, type LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import { compareCodePoints } from '#lib/result/text.ts';
import type { OutcomeKind, Person, SaleFacts } from '#lib/sale/facts.ts';

export interface TagRegisterRow {
  readonly tag: string;
  readonly goods: string;
  readonly sellerNo: number;
  /** The licences of all partners who have one, joined by `; `; empty where none has. */
  readonly licenceNo: string;
  readonly lotNo: LotNo;
  readonly outcome: OutcomeKind | null;
  readonly buyerNo: number | null;
  /** As hammered, for what the lot's `by` says. */
  readonly priceCents: Cents | null;
}

export interface TagSources {
  readonly tags: readonly { readonly lotNo: LotNo; readonly tag: string }[];
  readonly people: readonly Pick<Person, 'personId' | 'licenceNo'>[];
}

/** One row a tag, sorted by seller number, lot number and tag. Throws when a tag's lot is not in the sale. */
export function tagRegister(facts: SaleFacts, { tags, people }: TagSources): TagRegisterRow[] {
  const lots = new Map(facts.lots.map((lot) => [lot.lotNo, lot]));
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const licences = licencesOf(facts, people);
  return tags
    .map(({ lotNo, tag }) => {
      const lot = lots.get(lotNo);
      if (lot === undefined) throw new RangeError(`tag ${tag} is of lot ${lotNo}, which is not in the sale`);
      const { goods, sellerNo } = lot;
      const outcome = outcomes.get(lotNo);
      // A lot that was not sold has gone to nobody, whatever was bid for it.
      const { buyerNo = null, priceCents = null } = outcome?.kind === 'sold' ? outcome : {};
      const licenceNo = licences.get(sellerNo) ?? '';
      return { tag, goods, sellerNo, licenceNo, lotNo, outcome: outcome?.kind ?? null, buyerNo, priceCents };
    })
    .sort(compareRows);
}

function licencesOf({ sellers }: SaleFacts, people: TagSources['people']): Map<number, string> {
  const byPerson = new Map(people.map(({ personId, licenceNo }) => [personId, licenceNo]));
  return new Map(
    sellers.map(({ sellerNo, partners }) => {
      const licences = partners.map(({ personId }) => byPerson.get(personId) ?? '').filter((licence) => licence !== '');
      return [sellerNo, licences.join('; ')];
    }),
  );
}

function compareRows(a: TagRegisterRow, b: TagRegisterRow): number {
  return a.sellerNo - b.sellerNo || compareLotNo(a.lotNo, b.lotNo) || compareCodePoints(a.tag, b.tag);
}
