/**
 * Furs that went home unsold, by seller, with the day by which a statement is due to the agency. Raw fur may be held
 * for some days after the season closes, longer only on an application (Neb. Rev. Stat. § 37-464: 10 days, an example).
 */
import { heldUntil, longDate } from '#lib/date/date.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { formatWeight } from '#lib/money/money.ts';
import { FATE_WORDS, OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { BLANK, cell, type ListPaper, type ListTable, listPaper, NO_ADVICE } from '#lib/paper/list.ts';
import type { Lot, Outcome } from '#lib/sale/facts.ts';
import { clean, quantityFor } from '#lib/settlement/spelling.ts';
import { type AfterwardsFacts, bySeller, sellerParties, tagsInWords } from './after-sale.ts';

export const HELD_COLUMNS = [
  ...['seller_no', 'seller', 'address', 'licence', 'lot_no', 'goods', 'count', 'weight', 'tags', 'outcome'],
  'statement_due',
] as const;

interface Held {
  readonly lot: Lot;
  /** What became of it: `no-sale`, `not paid for, kept by the association`. */
  readonly outcome: string;
}

/** ISO 8601 date, or null where the sale does not say when its season closes. */
function statementDue({ facts, statementDays }: AfterwardsFacts): string | null {
  const { seasonClosesOn } = facts.sale;
  return seasonClosesOn === null ? null : heldUntil(seasonClosesOn, statementDays);
}

function heldLots({ facts }: AfterwardsFacts): Held[] {
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  return [...facts.lots]
    .sort((a, b) => a.sellerNo - b.sellerNo || compareLotNo(a.lotNo, b.lotNo))
    .flatMap((lot): Held[] => {
      const outcome = outcomes.get(lot.lotNo);
      return outcome?.kind === 'sold' ? [] : [{ lot, outcome: wordsOf(outcome) }];
    });
}

/** The association has a statement to make of what it keeps, as a seller has of what went home. */
function wordsOf(outcome: Outcome | undefined): string {
  if (outcome === undefined) return 'not called';
  const { kind, fate } = outcome;
  return fate ? `${OUTCOME_WORDS[kind]}, ${FATE_WORDS[fate]}` : OUTCOME_WORDS[kind];
}

export function heldRows(after: AfterwardsFacts): string[][] {
  const [sellers, tags, due] = [sellerParties(after), tagsInWords(after), statementDue(after)];
  return heldLots(after).map(({ lot, outcome }) => {
    const seller = sellers.get(lot.sellerNo);
    return [
      ...[String(lot.sellerNo), seller?.names ?? '', seller?.address ?? '', seller?.licence ?? '', lot.lotNo],
      ...[goodsName(after, lot), String(lot.count ?? '')],
      lot.weightThousandths === null ? '' : formatWeight(lot.weightThousandths),
      ...[(tags.get(lot.lotNo) ?? []).join('; '), outcome, due ?? ''],
    ];
  });
}

/** A worksheet to take to the agency: what each seller still holds, with room to write what became of it. */
export function heldOver(after: AfterwardsFacts): ListPaper {
  const due = statementDue(after);
  const held = heldLots(after);
  return listPaper(after.context, {
    title: 'Furs held over',
    opening: [
      due === null
        ? 'The sale does not say when the season closes: ask your wildlife agency by when a statement is due.'
        : `Raw fur still held after ${longDate(due)} wants a statement to the agency by that day: the season’s close and ${after.statementDays} days. Check the day with your wildlife agency.`,
      'Write in what was sold elsewhere since, and tick what is still held.',
    ],
    tables: tablesOf(after, held),
    remarks: held.length === 0 ? ['Everything that came in was sold.'] : [],
    signatures: ['For the association', 'For the agency'],
    caution: NO_ADVICE,
  });
}

function tablesOf(after: AfterwardsFacts, held: readonly Held[]): ListTable[] {
  const tags = tagsInWords(after);
  return bySeller<Held>(after, held, [
    ['lot', 'Lot', ({ lot }) => lot.lotNo],
    ['words', 'Goods and tags', ({ lot }) => cell(goodsName(after, lot), ...(tags.get(lot.lotNo) ?? []))],
    ['quantity', 'Number', ({ lot }) => quantityFor(lot).words],
    ['goods', 'At the sale', ({ outcome }) => outcome],
    ['blank', 'Still held', () => BLANK],
    ['blank', 'Sold on', () => BLANK],
  ]);
}

function goodsName({ facts }: AfterwardsFacts, lot: Lot): string {
  return clean(facts.goods.find(({ goods }) => goods === lot.goods)?.name ?? lot.goods);
}
