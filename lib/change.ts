/** Change for cash: what goes back over the counter. */
import { type Cents, parseMoney, showMoney, subtractCents, ZERO } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

/**
 * The change in whole cents for cash given towards an amount, both as they were typed. An empty `given` is the exact
 * amount. Refuses what is no amount, and cash that does not reach, under the field `amount` or `given`.
 */
export function changeFor(amount: string, given: string): Result<Cents> {
  const taken = parseMoney(amount, { allowZero: false });
  if (!taken.ok) return { ...taken, field: 'amount' };
  if (given === '') return accept(ZERO);
  const cash = parseMoney(given);
  if (!cash.ok) return { ...cash, field: 'given' };
  if (cash.value >= taken.value) return accept(subtractCents(cash.value, taken.value));
  const message = `${showMoney(cash.value)} does not reach ${showMoney(taken.value)}: take a smaller amount for a part payment.`;
  return refuse('conflict', message, 'given');
}
