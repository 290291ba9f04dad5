/** The numbers that a lot had before it was divided or joined: none is given again, and each leads to what became of it. */
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { compareLotNo, type LotNo, parseLotNo } from './number.ts';

export interface FormerNumber {
  readonly lotNo: LotNo;
  readonly how: 'divided' | 'joined';
}

/** Reads `72 divided, 81 joined`, as the book and `lots.csv` have it. */
export function parseFormer(text: string): Result<FormerNumber[]> {
  const all: FormerNumber[] = [];
  for (const one of text.split(/\s*,\s*/).filter(Boolean)) {
    const [number = '', how = ''] = one.split(' ');
    const lotNo = parseLotNo(number);
    if (!lotNo.ok || (how !== 'divided' && how !== 'joined')) {
      return refuse('malformed', 'Write former numbers as in 72 divided, 81 joined.', 'former_numbers');
    }
    all.push({ lotNo: lotNo.value, how });
  }
  return accept(all);
}

/** The text of former numbers with one more; texts of two lots that are joined are put together first. */
export function addFormer(texts: readonly string[], { lotNo, how }: FormerNumber): string {
  const parts = [...texts.flatMap((text) => text.split(', ')), `${lotNo} ${how}`];
  return [...new Set(parts.filter(Boolean))].join(', ');
}

/** A lot with the numbers that lead to it. */
export interface WithFormer {
  readonly lotNo: LotNo;
  readonly former: readonly FormerNumber[];
}

export interface GoneLot {
  /** `Lot 72 was divided into 72A and 72B.` */
  readonly message: string;
  readonly lots: readonly LotNo[];
}

/** What became of a number that was divided or joined; undefined for one that never was. */
export function whatBecameOf(lotNo: LotNo, lots: readonly WithFormer[]): GoneLot | undefined {
  const led = lots.filter(({ former }) => former.some((one) => one.lotNo === lotNo));
  if (led.length === 0) return undefined;
  const numbers = led.map((one) => one.lotNo).sort(compareLotNo);
  const divided = led.some(({ former }) => former.some((one) => one.lotNo === lotNo && one.how === 'divided'));
  const [last] = numbers.slice(-1);
  const list = numbers.length === 1 ? `${last}` : `${numbers.slice(0, -1).join(', ')} and ${last}`;
  return { message: `Lot ${lotNo} was ${divided ? 'divided into' : 'joined to lot'} ${list}.`, lots: numbers };
}

/** Why a number that was typed or scanned is no lot. */
export function noSuchLot(lotNo: LotNo, gone: GoneLot | undefined, field: string): Refusal {
  if (!gone) return refuse('unknown', `There is no lot ${lotNo} in this sale: check the number on the ticket.`, field);
  return refuse('unknown', `${gone.message} Use ${gone.lots.length === 1 ? 'that number' : 'one of them'}.`, field);
}
