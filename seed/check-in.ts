/** The morning of a sale: people come to the table, get their numbers and check their goods in. */
import type { PlannedSale } from './calendar.ts';
import { type Driver, typed } from './driver.ts';
import { type PlannedBringing, type PlannedLot, plannedLot, type TagRoll, tagRoll, worthOf } from './lots.ts';
import { onStep } from './market.ts';
import { BUYERS, meetBuyer, meetTrapper, type People } from './people.ts';
import { prngFor } from './prng.ts';
import { catchOf } from './season-catch.ts';
import { PARTIES, type Party, partyOf } from './sellers.ts';
import { type Special, specialsOf } from './specials.ts';

export interface Hall {
  readonly driver: Driver;
  readonly people: People;
  readonly sale: PlannedSale;
  readonly saleId: number;
}

/** A lot with the number on its ticket. */
export interface TicketedLot {
  readonly lotNo: string;
  readonly lotId: number;
  readonly lot: PlannedLot;
}

export function checkInBuyers(hall: Hall): void {
  const { driver, people, sale, saleId } = hall;
  for (const house of BUYERS.filter(({ comes }) => comes.includes(sale.season))) {
    const { buyerNo, region, exemptNo = '', limit = '' } = house;
    driver.submit('till', 'buyer.register', {
      saleId,
      personId: meetBuyer(driver, people, house),
      buyerNo,
      licenceNo: `FB-${900 + buyerNo}`,
      licenceRegion: region,
      licenceExpires: `${sale.heldOn.slice(0, 4)}-12-31`,
      taxExempt: exemptNo !== '',
      exemptNo,
      cleared: true,
      limit,
    });
  }
}

/** Takes everything in and gives the lots in the order of their numbers. */
export function checkIn(hall: Hall, arriving: readonly PlannedBringing[]): TicketedLot[] {
  return arriving.flatMap((bringing) => checkInParty(hall, bringing));
}

function checkInParty(hall: Hall, bringing: PlannedBringing): TicketedLot[] {
  const { driver, people, sale, saleId } = hall;
  const { party, lots, duesDeducted, advance, adjustment } = bringing;
  const met = party.trappers.map((trapper) => meetTrapper(driver, people, trapper, sale));
  const partners = met.map(({ personId }, at) => ({ personId, parts: party.trappers[at]?.parts ?? 1 }));
  const sellerNo = driver.submit('intake', 'seller.register', { saleId, partners, broughtBy: '' }).sellerNo;
  for (const { owesDues } of met) {
    const how = duesDeducted ? 'deducted' : 'cash';
    const dues = { saleId, sellerNo, kind: 'dues', amount: '25.00', how, note: '' } as const;
    if (owesDues) driver.submit('intake', 'charge.add', dues);
  }
  const charge = { saleId, sellerNo, how: 'deducted' } as const;
  if (advance) {
    const handed = { kind: 'advance', amount: advance, note: 'Handed over in January.' } as const;
    driver.submit('payout', 'charge.add', { ...charge, ...handed });
  }
  if (adjustment) driver.submit('payout', 'charge.add', { ...charge, kind: 'adjustment', ...adjustment });
  return lots.map((lot) => checkInLot(hall, sellerNo, lot));
}

function checkInLot({ driver, sale, saleId }: Hall, sellerNo: number, lot: PlannedLot): TicketedLot {
  const { count, weight, minimum, tags, fate: _fate, leftBids: _bids, ...said } = lot;
  const answer = driver.submit('intake', 'lot.add', {
    saleId,
    sellerNo,
    ...said,
    count: count === null ? '' : String(count),
    weight: weight ?? '',
    minimum: minimum === null ? '' : typed(onStep(worthOf(lot, sale.season).times(minimum).dividedBy(1000))),
    tags: tags.map(({ tag, condition }) => ({ tag, condition })),
  });
  return { lotNo: answer.lotNo, lotId: answer.lotId, lot };
}

/** Takes down the bids that buyers left before the sale began. */
export function takeLeftBids({ driver, sale, saleId }: Hall, lots: readonly TicketedLot[]): void {
  for (const { lotNo, lot } of lots) {
    for (const { buyerNo, share } of lot.leftBids) {
      const price = typed(onStep(worthOf(lot, sale.season).times(share).dividedBy(1000)));
      driver.submit('till', 'bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price });
    }
  }
}

/** From which thousandth of the morning to which a party arrives. */
const MORNING = { early: [0, 300], late: [700, 999], any: [0, 999] } as const;
/** How many of a thousand come without a special reason; this season many have one. */
const COMES = [830, 830, 830, 600] as const;

export function arrivals(sale: PlannedSale): PlannedBringing[] {
  const prng = prngFor(`${sale.name}, who comes`);
  const roll = tagRoll(sale.tagYear, prngFor(`${sale.name}, tags`));
  const specials = new Map(specialsOf(sale.season, roll).map((special) => [partyOf(special.who), special]));
  const coming = PARTIES.flatMap((party) => {
    const special = specials.get(party);
    const when = special?.when ?? (prng.permille(COMES[sale.season]) ? 'any' : 'absent');
    if (when === 'absent') return [];
    const [from, to] = MORNING[when];
    return [{ at: prng.between(from, to), party, special }];
  });
  coming.sort((a, b) => a.at - b.at);
  return coming.map(({ party, special }) => bringing(sale, party, special, roll));
}

function bringing(sale: PlannedSale, party: Party, special: Special | undefined, roll: TagRoll): PlannedBringing {
  const prng = prngFor(`${sale.name}, ${party.trappers[0]?.name}`);
  const told = (special?.lots ?? []).map(plannedLot);
  const drawn = catchOf(party, told.length, roll, prng);
  const lots = special?.only ? told : [...told, ...withoutTwins(drawn, told)];
  return { ...drawn, ...special, lots };
}

/** Drawn lots of tagged goods give way to told ones, so that a licence's season limit is never passed. */
function withoutTwins({ lots }: PlannedBringing, told: PlannedBringing['lots']): PlannedBringing['lots'] {
  const tagged = new Set(told.filter(({ tags }) => tags.length > 0).map(({ goods }) => goods));
  return lots.filter(({ goods }) => !tagged.has(goods));
}
