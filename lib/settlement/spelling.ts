/** How dates, amounts, quantities and addresses are spelled on a paper. */
import { longDate } from '#lib/date/date.ts';
import { type Cents, cents, formatWeight, showMoney } from '#lib/money/money.ts';
import type { Address, Licence } from '#lib/person/fields.ts';
import type { By, Measured } from '#lib/sale/facts.ts';
import type { Figure, Measure } from './model.ts';

export function figure(amount: Cents): Figure {
  return { cents: amount, words: showMoney(amount) };
}

/** An amount that plays no part and leaves its place empty. */
export function blank(amount: Cents): Figure {
  return { cents: amount, words: '' };
}

export function withoutSign(amount: Cents): string {
  return showMoney(cents(Math.abs(amount)));
}

const STANDS_FOR: Readonly<Record<By, string>> = { piece: 'each', lot: 'the lot', lb: '/ lb', oz: '/ oz' };

/** A price with what it stands for: `112.75 each`, `3.50 / oz`, `101.30 the lot`. */
export function priceFor(price: Cents, by: By): Measure {
  return measure(showMoney(price), STANDS_FOR[by]);
}

/** What a lot is made of: its pieces, or its weight where the price goes by weight. */
export function quantityFor(lot: Measured): Measure {
  if (lot.by === 'lb' || lot.by === 'oz') {
    return lot.weightThousandths === null ? NOTHING : measure(formatWeight(lot.weightThousandths), lot.by);
  }
  return lot.count === null ? NOTHING : piecesFor(lot.count);
}

export function piecesFor(count: number): Measure {
  return measure(String(count), count === 1 ? 'piece' : 'pieces');
}

export const NOTHING: Measure = { figure: '', unit: '', words: '' };

function measure(text: string, unit: string): Measure {
  return { figure: text, unit, words: `${text} ${unit}` };
}

/** Street and town as they stand on an envelope, without the lines that nobody gave. */
export function addressLines({ street, city, region, postcode }: Address): string[] {
  const behind = joined([region, postcode], ' ');
  return [clean(street), joined([city, behind], region.trim() === '' ? ' ' : ', ')].filter((line) => line !== '');
}

/** The name that money is made out to: a guardian's where one is on record, otherwise the person's own. */
export function payTo({ name, payee }: { readonly name: string; readonly payee: string }): string {
  return clean(payee) || clean(name);
}

/** A licence with its State and last day: `Licence L1, US-WY, to December 31, 2026`; empty where there is none. */
export function licenceWords(name: string, { licenceNo, licenceRegion, licenceExpires }: Licence): string {
  if (licenceNo === '') return '';
  const until = licenceExpires === null ? '' : `to ${longDate(licenceExpires)}`;
  return `${name} ${joined([licenceNo, licenceRegion, until], ', ')}`;
}

/** The texts that say something, joined. */
export function joined(texts: readonly string[], by: string): string {
  return texts
    .map(clean)
    .filter((text) => text !== '')
    .join(by);
}

/** Ready-made ligatures such as ﬁ, which a name can bring with it out of another file. */
const LIGATURES = /[\ufb00-\ufb06]/g;

/** Typed text for a paper: letters composed (NFC) and apart, as a font has them, and one space for any run of blanks. */
export function clean(text: string): string {
  const apart = text.normalize('NFC').replace(LIGATURES, (letters) => letters.normalize('NFKC'));
  return apart.replace(/\s+/g, ' ').trim();
}

/** Words that stood alone, within a sentence: the first letter is small. */
export function lower(words: string): string {
  return `${words.slice(0, 1).toLowerCase()}${words.slice(1)}`;
}

/** Names in a sentence: `A`, `A and B`, `A, B and C`. */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
