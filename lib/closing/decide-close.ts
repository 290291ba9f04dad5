/** Whether a sale may be closed: when every line of its balance is at zero, and the drawer is put away. */
import type { ClosingLine, Why } from '#lib/closing/line.ts';
import { type Cents, showMoney } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

const MOST_NAMED = 3;

export function decideClose(lines: readonly ClosingLine[], drawerOpen: boolean): Result<null> {
  if (drawerOpen) {
    return refuse(
      'conflict',
      'The sale does not close while the drawer is open: count and close it at the Till.',
      'stage',
    );
  }
  const open = lines.filter(({ difference }) => difference !== 0);
  if (open.length === 0) return accept(null);
  const sentences = open.map(
    (line) => `${line.title}: ${amountWords(line, line.difference)} off (${named(line.why)}).`,
  );
  return refuse(
    'conflict',
    `The sale closes only at zero. ${sentences.join(' ')} See the balance under Payout.`,
    'stage',
  );
}

/** An amount in the unit of its line. */
export function amountWords({ unit }: Pick<ClosingLine, 'unit'>, amount: number): string {
  if (unit === 'cents') return showMoney(amount as Cents);
  return `${amount} ${Math.abs(amount) === 1 ? unit.slice(0, -1) : unit}`;
}

function named(why: readonly Why[]): string {
  const shown = why.slice(0, MOST_NAMED).map(({ words }) => words);
  const more = why.length - shown.length;
  return more > 0 ? `${shown.join('; ')}; and ${more} more` : shown.join('; ');
}
