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

/** What the payments of one party are, each kind as its own figure, seen from the association: in is above nothing. */
export interface PaidSplit {
  /** Money that came in less money that went out. */
  readonly paidCents: Cents;
  readonly setOffCents: Cents;
  /** Debts that were written off: nobody paid them. */
  readonly givenUpCents: Cents;
  /** Fees for returned checks, above nothing where they were charged. */
  readonly feeCents: Cents;
}

/** The one place that tells money from what only settles an account. */
export function splitPaid(payments: readonly Pick<Payment, 'direction' | 'method' | 'amountCents'>[]): PaidSplit {
  const by = (wanted: Method) => payments.filter(({ method }) => method === wanted);
  return {
    paidCents: paidIn(payments.filter(isHandedOver)),
    setOffCents: paidIn(by('set_off')),
    givenUpCents: paidIn(by('written_off')),
    feeCents: paidOut(by('check_fee')),
  };
}

/** What is left of a total once its payments are split. */
export function leftOf(totalCents: Cents, { paidCents, setOffCents, givenUpCents, feeCents }: PaidSplit): Cents {
  return sumCents([totalCents, feeCents, ...[paidCents, setOffCents, givenUpCents].map(negate)]);
}

/** Everything that settled an account, less fees, in and out. */
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

/** What one partner paid and was paid, apart from what was set off and given up; in is above nothing. */
export function partnerSplit(
  { personId, paidCents }: Pick<PartnerAccount, 'personId' | 'paidCents'>,
  payments: readonly (Money & Pick<Payment, 'method'>)[],
  alone: boolean,
): PaidSplit {
  const own = payments.filter((one) => one.personId === personId || (alone && one.personId === null));
  const split = splitPaid(own);
  // What names no partner was spread over them: all that moved no money names one.
  return { ...split, paidCents: leftOf(negate(paidCents), { ...split, paidCents: ZERO }) };
}
