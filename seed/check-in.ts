/** The morning of a sale: people come to the table, get their numbers and check their goods in. */

import { BUYERS, type BuyingHouse } from './buyers.ts';
import type { PlannedSale } from './calendar.ts';
import { type Hand, typed } from './hand.ts';
import type { Bringing, PlannedLot } from './lots.ts';
import { onStep } from './market.ts';
import { meetBuyer, meetTrapper, type People } from './people.ts';
import { worthOf } from './value.ts';

export interface Hall {
  readonly hand: Hand;
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
  const { hand, people, sale, saleId } = hall;
  for (const house of BUYERS.filter(({ comes }) => comes.includes(sale.season))) {
    const personId = meetBuyer(hand, people, house);
    hand.give('till', 'buyer.register', { saleId, personId, ...buyerFields(house, sale) });
  }
}

function buyerFields({ buyerNo, region, exemptNo = '', limit = '' }: BuyingHouse, { heldOn }: PlannedSale) {
  const licence = {
    licenceNo: `FB-${900 + buyerNo}`,
    licenceRegion: region,
    licenceExpires: `${heldOn.slice(0, 4)}-12-31`,
  };
  return { buyerNo, ...licence, taxExempt: exemptNo !== '', exemptNo, cleared: true, limit };
}

/** Takes everything in and gives the lots in the order of their numbers. */
export function checkIn(hall: Hall, arriving: readonly Bringing[]): TicketedLot[] {
  return arriving.flatMap((bringing) => checkInParty(hall, bringing));
}

function checkInParty(hall: Hall, bringing: Bringing): TicketedLot[] {
  const { hand, people, sale, saleId } = hall;
  const met = bringing.party.trappers.map((trapper) => ({
    ...meetTrapper(hand, people, { trapper, sale }),
    parts: trapper.parts,
  }));
  const partners = met.map(({ personId, parts }) => ({ personId, parts }));
  const sellerNo = hand.give('intake', 'seller.register', { saleId, partners, broughtBy: '' }).sellerNo;
  for (const { owesDues } of met) if (owesDues) takeDues(hall, sellerNo, bringing.duesDeducted === true);
  takeOtherCharges(hall, sellerNo, bringing);
  return bringing.lots.map((lot) => checkInLot(hall, sellerNo, lot));
}

function takeDues({ hand, saleId }: Hall, sellerNo: number, deducted: boolean): void {
  const how = deducted ? 'deducted' : 'cash';
  hand.give('intake', 'charge.add', { saleId, sellerNo, kind: 'dues', amount: '25.00', how, note: '' });
}

function takeOtherCharges({ hand, saleId }: Hall, sellerNo: number, { advance, adjustment }: Bringing): void {
  const charge = { saleId, sellerNo, how: 'deducted' } as const;
  if (advance !== undefined) {
    hand.give('payout', 'charge.add', { ...charge, kind: 'advance', amount: advance, note: 'Handed over in January.' });
  }
  if (adjustment !== undefined) hand.give('payout', 'charge.add', { ...charge, kind: 'adjustment', ...adjustment });
}

function checkInLot({ hand, sale, saleId }: Hall, sellerNo: number, lot: PlannedLot): TicketedLot {
  const { count, weight, minimum, tags, fate: _fate, leftBids: _bids, ...said } = lot;
  const answer = hand.give('intake', 'lot.add', {
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
export function takeLeftBids({ hand, sale, saleId }: Hall, lots: readonly TicketedLot[]): void {
  for (const { lotNo, lot } of lots) {
    for (const { buyerNo, share } of lot.leftBids) {
      const price = typed(onStep(worthOf(lot, sale.season).times(share).dividedBy(1000)));
      hand.give('till', 'bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price });
    }
  }
}
