/** How each partner of a seller number stands: their share, what they were paid, and what is still to pay or to get back. */
import { addCents, type Cents, negate, subtractCents, sumCents, ZERO } from '#lib/money/money.ts';
import type { Handed, Method, Payment } from '#lib/sale/facts.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';

export interface PartnerAccount {
  readonly personId: string;
  /** Below nothing where the partner owes. */
  readonly shareCents: Cents;
  /** Paid to the partner less what they paid in. */
  readonly paidCents: Cents;
  /** Still to pay to the partner; below nothing, to get back. */
  readonly owingCents: Cents;
}

export type Share = Pick<PartnerAccount, 'personId' | 'shareCents'>;
type Money = Pick<Payment, 'direction' | 'personId' | 'amountCents'>;

/** The shares as a sheet has them. */
export function sharesOf({ shares }: Pick<SettlementSheet, 'shares'>): Share[] {
  return shares.map(({ personId, share }) => ({ personId, shareCents: share.cents }));
}

const MOVES_NO_MONEY: ReadonlySet<Method> = new Set(['set_off', 'written_off', 'check_fee']);

/** Whether money changed hands, which a set-off, a debt that is given up and a fee that is charged do not ask for. */
export function isHandedOver<T extends { readonly method: Method }>(one: T): one is T & { readonly method: Handed } {
  return !MOVES_NO_MONEY.has(one.method);
}

/** Money paid in less money handed back. */
export function paidIn(payments: readonly Pick<Payment, 'direction' | 'amountCents'>[]): Cents {
  return negate(paidOut(payments));
}

export function paidOut(payments: readonly Pick<Payment, 'direction' | 'amountCents'>[]): Cents {
  const amounts = payments.map(({ direction, amountCents }) =>
    direction === 'out' ? amountCents : negate(amountCents),
  );
  return sumCents(amounts);
}

/**
 * The partners' accounts in the order of the shares; what they were paid adds up to the payments. A payment that names
 * no partner of the number is theirs in their order, each up to what was open, and what goes beyond is the first one's.
 */
export function partnerAccounts(shares: readonly Share[], payments: readonly Money[]): PartnerAccount[] {
  const named = new Set(shares.map(({ personId }) => personId));
  const accounts = shares.map(({ personId, shareCents }) =>
    accountOf({ personId, shareCents }, paidOut(payments.filter((payment) => payment.personId === personId))),
  );
  const unnamed = paidOut(payments.filter(({ personId }) => personId === null || !named.has(personId)));
  return spread(accounts, unnamed);
}

function accountOf({ personId, shareCents }: Share, paidCents: Cents): PartnerAccount {
  return { personId, shareCents, paidCents, owingCents: subtractCents(shareCents, paidCents) };
}

function spread(accounts: readonly PartnerAccount[], unnamed: Cents): PartnerAccount[] {
  let left = unnamed;
  const filled = accounts.map((account) => {
    const part = within(left, account.owingCents);
    left = subtractCents(left, part);
    return accountOf(account, addCents(account.paidCents, part));
  });
  const [first, ...others] = filled;
  if (first === undefined || left === ZERO) return filled;
  return [accountOf(first, addCents(first.paidCents, left)), ...others];
}

/** As much of an amount as an open one of the same sign takes. */
function within(amount: Cents, open: Cents): Cents {
  if (amount > ZERO === open > ZERO) return Math.abs(amount) < Math.abs(open) ? amount : open;
  return ZERO;
}
