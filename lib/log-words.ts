/** A log line in words: what the command does, and the parts of its input that a person asks about. */

type Fields = Readonly<Record<string, unknown>>;

export interface SaidLine {
  readonly command: string;
  /** What the command does in general, for one that has no words of its own. */
  readonly summary: string;
  readonly input: unknown;
  readonly result: unknown;
}

const ACTS: Readonly<Record<string, string>> = {
  'association.set': 'Association set',
  'bid.leave': 'Bid left',
  'bid.retract': 'Bid taken back',
  'bids.award': 'Written bids awarded',
  'bids.closing': 'Closing of the written bids set',
  'buyer.amend': 'Buyer amended',
  'buyer.clear': 'Buyer cleared',
  'buyer.register': 'Buyer registered',
  'buyers.carry': 'Buyers of last year carried over',
  'charge.add': 'Charge entered',
  'check.reissue': 'Check written anew',
  'check.write': 'Check written',
  'drawer.record': 'Drawer',
  'drawer.void': 'Drawer entry voided',
  'dues.take': 'Dues taken',
  'dues.void': 'Dues taken back',
  'goods.add': 'Goods added',
  'goods.amend': 'Goods amended',
  'handover.record': 'Handed over',
  'handover.return': 'Taken back',
  'intake.rules': 'Rules of the check-in table',
  'invoice.issue': 'Invoice issued',
  'lot.add': 'Checked in',
  'lot.amend': 'Amended',
  'lot.divide': 'Divided',
  'lot.join': 'Joined with another',
  'lot.move': 'Moved to another seller number',
  'lot.place': 'Place in the order changed',
  'lot.skip': 'Put behind the others',
  'lot.withdraw': 'Withdrawn by its seller',
  'lots.add': 'A list checked in',
  'lots.withdraw': 'All that was left withdrawn',
  'member.code': 'Code for a member’s own prices made',
  'member.enter': 'A member came in by code',
  'network.set': 'Names of the machine and its open line set',
  'outcome.choice': 'Outcome of a choice',
  'outcome.correct': 'Outcome corrected',
  'outcome.record': 'Outcome',
  'outcome.reopen': 'Outcome taken back',
  'payment.record': 'Payment',
  'payment.void': 'Payment voided',
  'payout.policy': 'Rules of the payout set',
  'person.amend': 'Person amended',
  'person.enrol': 'Person enrolled',
  'person.forget': 'Contact data removed',
  'prices.fewest': 'Fewest sellers and buyers behind a shown price set',
  'prices.import': 'Price list imported',
  'sale.amend': 'Sale amended',
  'sale.handover': 'Handing over set',
  'sale.import': 'Sale imported',
  'sale.next': 'Sale planned like an earlier one',
  'sale.order': 'Running order set',
  'sale.plan': 'Sale planned',
  'sale.stage': 'Sale taken to',
  'seller.register': 'Seller number given',
  'settlement.correct': 'Correcting sheet issued',
  'settlement.issue': 'Settlement sheet issued',
  'tag.mend': 'Export tag after the hammer',
  'tags.set': 'Export tags entered',
  'worker.add': 'Worker entered',
  'worker.amend': 'Worker amended',
  'worker.passphrase': 'Passphrase changed',
  'worker.renew': 'Own passphrase changed',
};

/** The parts that are told, in this order: the name of the field, and the words before its value. */
const PARTS: readonly (readonly [string, string])[] = [
  ['lotNo', 'lot'],
  ['lots', 'lots'],
  ['stage', ''],
  ['name', ''],
  ['sellerNo', 'seller number'],
  ['toSellerNo', 'to seller number'],
  ['kind', ''],
  ['direction', ''],
  ['goods', ''],
  ['count', 'count'],
  ['weight', 'weight'],
  ['buyerNo', 'buyer'],
  ['price', 'at'],
  ['amount', 'of'],
  ['method', 'by'],
  ['number', 'number'],
  ['reason', 'because:'],
];

/** One sentence without a full stop, such as `Outcome: lot 12, sold, buyer 10, at 7.25`. */
export function lineInWords({ command, summary, input, result }: SaidLine): string {
  const act = ACTS[command] ?? summary.replace(/\.$/, '');
  const said = { ...plain(result), ...plain(input) };
  const parts = PARTS.flatMap(([field, before]) => {
    const value = worded(said[field]);
    return value === '' ? [] : [before === '' ? value : `${before} ${value}`];
  });
  return parts.length === 0 ? act : `${act}: ${parts.join(', ')}`;
}

function plain(value: unknown): Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : {};
}

function worded(value: unknown): string {
  if (typeof value === 'string') return value.trim();
  if (typeof value === 'number') return String(value);
  const words = Array.isArray(value) ? value.map(worded) : [];
  if (words.some((word) => word === '')) return '';
  const last = words.length - 1;
  return last < 1 ? words.join() : `${words.slice(0, last).join(', ')} and ${words[last]}`;
}
