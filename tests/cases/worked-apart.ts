/**
 * A whole sale worked out from the rows of its folder with big.js, another decimal library of the npm registry, and from
 * the words of the sums in docs/exchange.md: none of the program's own rules is used here. Amounts are texts with cents.
 */
import Big from 'big.js';

type Row = Readonly<Record<string, string>>;

Big.RM = Big.roundHalfUp;

export interface Rows {
  readonly terms: Record<string, unknown>;
  readonly heldOn: string;
  readonly people: readonly Row[];
  readonly sellers: readonly Row[];
  readonly buyers: readonly Row[];
  readonly lots: readonly Row[];
  readonly results: readonly Row[];
  readonly charges: readonly Row[];
}

const text = (row: Row | undefined, name: string): string => row?.[name] ?? '';
const big = (value: unknown) => new Big(String(value === '' || value === undefined ? '0' : value));
const cents = (amount: Big) => amount.round(2);
const sum = (amounts: readonly Big[]) => amounts.reduce((so, amount) => so.plus(amount), new Big(0));
const shown = (amount: Big) => amount.toFixed(2);

interface Pct {
  readonly member: string;
  readonly guest: string;
}

export function workedApart(rows: Rows) {
  const { terms } = rows;
  const lots = rows.lots.map((lot) => lotOf(rows, lot));
  const sellers = [...new Set(rows.sellers.map((row) => text(row, 'seller_no')))].map((no) => {
    const own = lots.filter((lot) => lot.sellerNo === no);
    const charged = rows.charges.filter((row) => text(row, 'seller_no') === no && text(row, 'how') === 'deducted');
    const charges = sum(charged.map((row) => big(text(row, 'amount'))));
    const net = sum(own.map((lot) => lot.net))
      .minus(big(terms.seller_number_fee))
      .minus(charges);
    const parts = rows.sellers.filter((row) => text(row, 'seller_no') === no);
    return { no, net, charges, shares: shared(net, parts), ...sumsOf(own) };
  });
  const buyers = rows.buyers.map((buyer) => buyerOf(rows, buyer, lots));
  return { lots, sellers, buyers };
}

type WorkedLot = ReturnType<typeof lotOf>;

function sumsOf(own: readonly WorkedLot[]) {
  return {
    gross: sum(own.filter((lot) => !lot.donated).map((lot) => lot.amount)),
    commission: sum(own.map((lot) => lot.commission)),
    fees: sum(own.map((lot) => lot.fees)),
    donated: sum(own.filter((lot) => lot.donated).map((lot) => lot.amount)),
  };
}

/** Sums 1 to 5, and 11. */
function lotOf(rows: Rows, lot: Row) {
  const { terms } = rows;
  const result = rows.results.find((row) => text(row, 'lot_no') === text(lot, 'lot_no'));
  const outcome = text(result, 'outcome');
  const by = text(lot, 'by');
  const quantity = by === 'piece' ? big(text(lot, 'count')) : by === 'lot' ? new Big(1) : big(text(lot, 'weight'));
  const donated = text(lot, 'donated') === 'yes';
  const hammer = cents(big(text(result, 'price')).times(quantity));
  const amount = outcome === 'sold' ? hammer : new Big(0);
  const free = donated || outcome === 'withdrawn' || outcome === 'unpaid';
  const hammered = outcome === 'sold' || outcome === 'bought_back';
  const commission = hammered && !free ? commissionOf(rows, lot, hammer) : new Big(0);
  const noSale = terms.no_sale as { flat: string; pct_of_minimum: string };
  const minimum = cents(big(text(lot, 'minimum')).times(quantity));
  const passed = big(noSale.flat).plus(cents(minimum.times(noSale.pct_of_minimum).div(100)));
  const fees = free ? new Big(0) : big(terms.lot_fee).plus(outcome === 'passed' ? passed : 0);
  const net = (donated ? new Big(0) : amount).minus(commission).minus(fees);
  const premium = cents(amount.times(big(terms.premium_pct)).div(100));
  const buyerNo = outcome === 'sold' ? text(result, 'buyer_no') : '';
  return { sellerNo: text(lot, 'seller_no'), outcome, donated, amount, commission, fees, net, premium, buyerNo };
}

function commissionOf({ terms, sellers, people, heldOn }: Rows, lot: Row, amount: Big): Big {
  const partners = sellers.filter((row) => text(row, 'seller_no') === text(lot, 'seller_no'));
  const member = partners.every((row) => {
    const until = text(
      people.find((person) => text(person, 'person_id') === text(row, 'person_id')),
      'member_until',
    );
    return until !== '' && until >= heldOn;
  });
  const overrides = terms.commission_overrides as Record<string, Pct>;
  const pct = overrides[text(lot, 'goods')] ?? (terms.commission as Pct);
  const share = cents(amount.times(member ? pct.member : pct.guest).div(100));
  const least = big(terms.commission_min);
  const raised = share.lt(least) ? least : share;
  return raised.gt(amount) ? amount : raised;
}

/** Sum 7: whole cents, the largest remainder first, a tie to the earlier row. */
function shared(net: Big, parts: readonly Row[]): string[] {
  const all = sum(parts.map((row) => big(text(row, 'parts'))));
  const exact = parts.map((row) =>
    net
      .times(100)
      .times(big(text(row, 'parts')))
      .div(all),
  );
  const whole = exact.map((one) => {
    const down = one.round(0, Big.roundDown);
    return one.lt(down) ? down.minus(1) : down;
  });
  const left = Number(net.times(100).minus(sum(whole)).toString());
  const order = exact
    .map((one, at) => ({ at, rest: one.minus(whole[at] ?? 0) }))
    .sort((a, b) => b.rest.cmp(a.rest) || a.at - b.at)
    .slice(0, left)
    .map(({ at }) => at);
  return whole.map((one, at) => shown(one.plus(order.includes(at) ? 1 : 0).div(100)));
}

/** Sum 8. */
function buyerOf({ terms }: Rows, buyer: Row, lots: readonly WorkedLot[]) {
  const own = lots.filter((lot) => lot.buyerNo === text(buyer, 'buyer_no'));
  const amount = sum(own.map((lot) => lot.amount));
  const premium = sum(own.map((lot) => lot.premium));
  const taxed = text(buyer, 'tax_exempt') === 'no';
  const tax = taxed ? cents(amount.plus(premium).times(big(terms.tax_pct)).div(100)) : new Big(0);
  return { no: text(buyer, 'buyer_no'), amount, premium, tax, total: amount.plus(premium).plus(tax) };
}

export { shown, sum };
