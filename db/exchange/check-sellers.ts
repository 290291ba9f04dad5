/** Whether guests may sell, and whether a licence brought more than the season allows. */
import { decideSeller } from '#lib/decide-seller.ts';
import { refuse } from '#lib/result.ts';
import { membershipOf } from '#lib/settlement.ts';
import type { Report } from './problem.ts';
import type { SaleGround } from './read-sale.ts';
import type { Row, Rows } from './rows.ts';
import type { RowOf } from './tables.ts';

type PersonRow = Row<RowOf<'people'>>;

interface Party {
  /** The line of the first partner. */
  readonly line: number;
  readonly sellerNo: number;
  readonly partners: PersonRow['cells'][];
}

export function checkSellers(ground: SaleGround, rows: Rows, report: Report): void {
  const parties = partiesOf(rows);
  for (const party of parties) checkMembership(ground, party, report);
  checkSeasonLimits(rows, parties, report);
}

/** The seller numbers all of whose partners are known. */
function partiesOf({ sellers, people }: Rows): Party[] {
  const byId = new Map(people.map(({ cells }) => [cells.person_id, cells]));
  const parties = new Map<number, Party>();
  const incomplete = new Set<number>();
  for (const { line, cells } of sellers) {
    const { seller_no: sellerNo, person_id } = cells;
    if (sellerNo === undefined) continue;
    const person = person_id === undefined ? undefined : byId.get(person_id);
    const party = parties.get(sellerNo) ?? { line, sellerNo, partners: [] };
    parties.set(sellerNo, party);
    if (person === undefined) incomplete.add(sellerNo);
    else party.partners.push(person);
  }
  return [...parties.values()].filter(({ sellerNo }) => !incomplete.has(sellerNo));
}

function checkMembership(ground: SaleGround, { line, sellerNo, partners }: Party, report: Report): void {
  const { heldOn, guestsMaySell } = ground;
  if (heldOn === undefined || guestsMaySell === undefined) return;
  const known = partners.flatMap(({ person_id: personId = '', member_until: memberUntil }) =>
    memberUntil === undefined ? [] : [{ personId, memberUntil, parts: 1 }],
  );
  if (known.length < partners.length) return;
  const decided = decideSeller({
    sellerNo,
    numberTaken: false,
    membership: membershipOf({ partners: known }, heldOn),
    guestsMaySell,
    names: partners.map(({ name = '' }) => name),
  });
  if (!decided.ok) report({ file: 'sellers.csv', line, column: 'person_id' }, decided);
}

/**
 * The pieces of partners may stand under any of their licences, so those with the same licences are counted together
 * against as many limits. Somebody without a licence counts as one.
 */
function checkSeasonLimits(rows: Rows, parties: readonly Party[], report: Report): void {
  const licences = new Map(parties.map(({ sellerNo, partners }) => [sellerNo, licencesOf(partners)]));
  for (const { cells } of rows.goods) {
    const { goods, season_limit: limit } = cells;
    if (goods === undefined || limit === undefined || limit === null) continue;
    const brought = new Map<string, number>();
    for (const { line, cells: lot } of rows.lots) {
      const own = lot.seller_no === undefined ? undefined : licences.get(lot.seller_no);
      if (lot.goods !== goods || own === undefined || !lot.count) continue;
      const key = own.join('\n');
      const before = brought.get(key) ?? 0;
      brought.set(key, before + lot.count);
      const most = limit * own.length;
      if (before > most || before + lot.count <= most) continue;
      const say = `Check the count and the seller: with this lot ${own.join(' and ')} brought ${before + lot.count} pieces of ${goods}, and a season allows ${most}.`;
      report({ file: 'lots.csv', line, column: 'count' }, refuse('not_allowed', say));
    }
  }
}

function licencesOf(partners: Party['partners']): string[] {
  const all = partners.map(({ person_id, licence_no, licence_region }) =>
    licence_no ? `licence ${[licence_region, licence_no].filter(Boolean).join(' ')}` : `person ${person_id}`,
  );
  return [...new Set(all)].sort();
}
