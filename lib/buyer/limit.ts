/** How much of a buyer's limit is left, said for whoever takes the next bid. It only ever warns. */
import { type Cents, negate, showMoney, subtractCents, ZERO } from '#lib/money.ts';

/** `250.00 left of the limit`, or by how much what is owing goes beyond it. */
export function limitInWords(limitCents: Cents, owingCents: Cents): string {
  const left = subtractCents(limitCents, owingCents);
  return left >= ZERO ? `${showMoney(left)} left of the limit` : `beyond the limit by ${showMoney(negate(left))}`;
}
