/** The four sales of the demo with their terms. The dates are fixed: a demo must come out the same on any day. */
import { STATIONS } from '#db/book/command.ts';
import { submit } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import { storePassphrase } from '#db/sign-in/passphrases.ts';
import { openStore } from '#db/sign-in/store.ts';
import { GOODS, REGION } from './association.ts';
import type { Season } from './market.ts';

export interface PlannedSale {
  readonly season: Season;
  readonly name: string;
  readonly heldOn: string;
  readonly label: string;
  readonly closesOn: string;
  /** Commission of members and guests in per cent. */
  readonly commission: readonly [string, string];
  /** The last day to which dues are taken at this sale. */
  readonly duesUntil: string;
  /** The season's own year on tags, that in which most of the goods were taken. */
  readonly tagYear: string;
}

// biome-ignore format: one line a sale reads as the table it is.
export const SALES: readonly PlannedSale[] = [
  { season: 0, name: 'Winter Sale 2024', heldOn: '2024-02-24', label: '2023-24', closesOn: '2024-02-15', commission: ['5', '9'], duesUntil: '2024-12-31', tagYear: '2023' },
  { season: 1, name: 'Winter Sale 2025', heldOn: '2025-02-22', label: '2024-25', closesOn: '2025-02-15', commission: ['5', '9'], duesUntil: '2025-12-31', tagYear: '2024' },
  { season: 2, name: 'Winter Sale 2026', heldOn: '2026-02-21', label: '2025-26', closesOn: '2026-02-15', commission: ['6', '10'], duesUntil: '2026-12-31', tagYear: '2025' },
  { season: 3, name: 'Early Winter Sale 2026', heldOn: '2026-11-21', label: '2026-27', closesOn: '2027-02-15', commission: ['6', '10'], duesUntil: '2027-12-31', tagYear: '2026' },
];

/** The input of `sale.plan`. */
export function planOf({ name, heldOn, label, closesOn, commission: [member, guest] }: PlannedSale) {
  const sale = {
    name,
    held_on: heldOn,
    venue: 'Lantern Ridge Grange Hall',
    season: label,
    season_closes_on: closesOn,
    region: REGION,
    currency: 'USD',
    bidding: 'floor',
    terms: {
      commission: { member, guest },
      commission_overrides: { bobcat: { member: '4', guest: '7.5' } },
      commission_min: '0.10',
      seller_number_fee: '5.00',
      no_sale: { flat: '1.50', pct_of_minimum: '0' },
      price_step: '0.25',
      dues: '25.00',
    },
  } as const;
  return { sale, goods: GOODS };
}

/** The worker of a demo book. A plainly marked passphrase in the open: no book of anybody's is ever made with it. */
export const DEMO_WORKER = { name: 'Demo', passphrase: 'demo only, not a secret' } as const;

/** Enters the worker of the demo, with every station, so that the demo's doors are closed as those of a real book. */
export async function addDemoWorker(book: Book): Promise<void> {
  const key = 'demo-worker';
  const { name, passphrase } = DEMO_WORKER;
  const store = openStore(book.file);
  const mark = await storePassphrase({ book, store }, { words: passphrase, key, now: Date.now() });
  store.close();
  if (!mark.ok) throw new Error(mark.message);
  const input = { name, passphraseMark: mark.value, stations: [...STATIONS] };
  const at = book.sqlite.prepare<[], string>('SELECT max(at) FROM log').pluck().get() ?? '2026-01-01T00:00:00.000Z';
  const answer = submit(book, { command: 'worker.add', input, worker: 'the demo', station: 'office', at, key });
  if (!answer.ok) throw new Error(answer.message);
}
