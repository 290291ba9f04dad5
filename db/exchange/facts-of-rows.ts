/** The rows of a folder as the facts that the rest of the house knows. */
import type { Bid, Goods, Person } from '#lib/facts.ts';
import type { RowOf } from './tables.ts';

export function goodsOfRow(row: RowOf<'goods'>): Goods {
  const { goods, name, by } = row;
  return {
    goods,
    name,
    scientificName: row.scientific_name,
    by,
    exportTag: row.export_tag,
    tagSpeciesCode: row.tag_species_code,
    seasonLimit: row.season_limit,
  };
}

export function personOfRow(row: RowOf<'people'>): Person {
  const { name, street, city, region, postcode, phone, email } = row;
  return {
    personId: row.person_id,
    ...{ name, street, city, region, postcode, phone, email },
    memberNo: row.member_no,
    memberUntil: row.member_until,
    licenceNo: row.licence_no,
    licenceRegion: row.licence_region,
    licenceExpires: row.licence_expires,
  };
}

export function bidOfRow(row: RowOf<'bids'>): Bid {
  return { lotNo: row.lot_no, buyerNo: row.buyer_no, priceCents: row.price, receivedAt: row.received_at };
}
