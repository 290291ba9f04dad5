/** A book with a sale that is being sold, as large as a browser test needs it. Made through the door. */
import type { Station } from '#db/book/command.ts';
import { submit } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import { hallOf, SALE } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

export interface SellingBook {
  /** Gives a command that must be accepted. */
  readonly must: <N extends CommandName>(command: N, input: InputOf<N>) => ValueOf<N>;
  readonly close: () => void;
}

export interface SellingOptions {
  readonly lots: number;
  readonly bidding?: 'floor' | 'sealed';
  /** Prices an earlier sale brought for muskrat, so that there is a range to be far from. */
  readonly earlier?: readonly string[];
}

/** Without what would make a sum hard to follow on a screen. */
const TERMS = {
  ...SALE.terms,
  ...{ commission_overrides: {}, no_sale: { flat: '1.00', pct_of_minimum: '0' }, premium_pct: '0', tax_pct: '0' },
};

const KINDS = [
  { goods: 'muskrat', name: 'Muskrat', by: 'piece', count: '32' },
  { goods: 'raccoon', name: 'Raccoon', by: 'piece', count: '12' },
  { goods: 'beaver', name: 'Beaver', by: 'piece', count: '5' },
] as const;

/** Sellers 1 to 3, buyers 10, 11 and 12 (cleared) and 20 (not cleared); buyer 12 is seller 1. Lot 3 of every ten has a minimum. */
export function fillSellingBook(file: string, { lots, bidding = 'floor', earlier = [] }: SellingOptions): SellingBook {
  const book = openBook(file, { create: true });
  let keys = 0;
  const must: SellingBook['must'] = (command, input) => {
    keys += 1;
    const station: Station = command.startsWith('outcome') ? 'block' : 'office';
    const at = `2026-02-28T15:${String(Math.floor(keys / 60) % 60).padStart(2, '0')}:${String(keys % 60).padStart(2, '0')}Z`;
    const answer = submit(book, { command, input, worker: 'Ada', station, at, key: `filling-${keys}` });
    if (!answer.ok) throw new Error(`${command}: ${answer.message}`);
    return answer.value;
  };
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow' });
  if (earlier.length > 0) closeSale(hallOf(book, 1), sellEarlier(must, earlier));
  const saleId = planSale(must, { name: 'Late Winter Sale', heldOn: '2026-02-28', bidding });
  const enrol = (name: string) => must('person.enrol', { name, memberUntil: '2026-12-31' }).personId;
  const sellers = [enrol('Ada Birch'), enrol('Bea Cole'), enrol('Cal Dunn')] as const;
  for (const [at, personId] of sellers.entries())
    must('seller.register', { saleId, sellerNo: at + 1, partners: [{ personId }] });
  const buyers = { 10: enrol('Dot Ely'), 11: enrol('Finn Gale'), 12: sellers[0], 20: enrol('Hal Ives') };
  for (const [number, personId] of Object.entries(buyers)) {
    const buyerNo = Number.parseInt(number, 10);
    must('buyer.register', { saleId, buyerNo, personId, cleared: buyerNo !== 20 });
  }
  for (let lot = 1; lot <= lots; lot += 1) {
    const { goods, count } = KINDS[lot % KINDS.length] ?? KINDS[0];
    const minimum = lot % 10 === 3 ? '8.00' : '';
    must('lot.add', { saleId, sellerNo: (lot % 3) + 1, goods, count, minimum, size: lot % 2 ? 'L' : 'XL', grade: 'I' });
  }
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  return { must, close: () => book.close() };
}

interface Planned {
  readonly name: string;
  readonly heldOn: string;
  readonly bidding: 'floor' | 'sealed';
}

function planSale(must: SellingBook['must'], { name, heldOn, bidding }: Planned): number {
  const sale = {
    name,
    held_on: heldOn,
    venue: 'Grange hall',
    season: '2025-26',
    region: 'US-WY',
    currency: 'USD',
    bidding,
    terms: TERMS,
  };
  const goods = KINDS.map(({ count: _count, ...kind }) => kind);
  const { saleId } = must('sale.plan', { sale, goods });
  must('sale.stage', { saleId, stage: 'intake', reason: '' });
  return saleId;
}

function sellEarlier(must: SellingBook['must'], prices: readonly string[]): number {
  const saleId = planSale(must, { name: 'Last Winter Sale', heldOn: '2025-02-22', bidding: 'floor' });
  const { personId } = must('person.enrol', { name: 'Eve Fox' });
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId }] });
  must('buyer.register', {
    saleId,
    buyerNo: 10,
    personId: must('person.enrol', { name: 'Gil Hart' }).personId,
    cleared: true,
  });
  for (const _price of prices) must('lot.add', { saleId, sellerNo: 1, goods: 'muskrat', count: '10' });
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  for (const [at, price] of prices.entries()) {
    must('outcome.record', { saleId, lotNo: String(at + 1), kind: 'sold', price, buyerNo: 10 });
  }
  return saleId;
}
