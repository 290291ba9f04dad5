/** The lots of a folder with their export tags, and what would hold each back. */
import type { LotNo } from '#lib/lot-number.ts';
import { decideTags, parseTag, type TagFault } from '#lib/tag.ts';
import { tagRegions } from '../queries/tags.ts';
import { doubledTagLines } from './check-duplicates.ts';
import type { Row, Rows } from './rows.ts';
import type { RowOf } from './tables.ts';

type TagLine = { readonly line: number; readonly tag: string };

export interface LotWithTags {
  readonly lot: Row<RowOf<'lots'>>;
  readonly goods: Row<RowOf<'goods'>>;
  readonly tags: readonly TagLine[];
  /** True where a tag of the lot was reported already, so that their number says nothing. */
  readonly tagsInDoubt: boolean;
  /** The region whose State the tags show, where that is a partner's and not the sale's; else empty. */
  readonly takenIn: string;
  readonly faults: readonly TagFault[];
}

/** Every lot whose number and goods could be read. Without a region of the sale, no State is checked. */
export function lotsWithTags(saleRegion: string | undefined, rows: Rows): LotWithTags[] {
  const goods = new Map(rows.goods.map((row) => [row.cells.goods, row]));
  const tags = tagsByLot(rows);
  const licences = licenceRegions(rows);
  return rows.lots.flatMap((lot) => {
    const { lot_no, seller_no, count } = lot.cells;
    const kind = goods.get(lot.cells.goods);
    if (lot_no === undefined || kind === undefined) return [];
    const own = tags.get(lot_no) ?? { tags: [], inDoubt: false };
    const takenIn = takenInOf(own.tags, saleRegion, licences.get(seller_no ?? 0) ?? []);
    const regions = saleRegion === undefined ? [] : tagRegions(saleRegion, takenIn);
    const faults = faultsOf({ lotNo: lot_no, count, goods: kind.cells, tags: own.tags, regions });
    return [{ lot, goods: kind, tags: own.tags, tagsInDoubt: own.inDoubt, takenIn, faults }];
  });
}

interface OwnTags {
  readonly tags: TagLine[];
  inDoubt: boolean;
}

/** The first row of each tag counts; a repeated or unreadable one was reported. */
function tagsByLot(rows: Rows): Map<LotNo, OwnTags> {
  const doubled = doubledTagLines(rows);
  const byLot = new Map<LotNo, OwnTags>();
  for (const { line, cells } of rows.tags) {
    if (cells.lot_no === undefined) continue;
    const own = byLot.get(cells.lot_no) ?? { tags: [], inDoubt: false };
    byLot.set(cells.lot_no, own);
    if (cells.tag === undefined || doubled.has(line)) own.inDoubt = true;
    else own.tags.push({ line, tag: cells.tag });
  }
  return byLot;
}

function licenceRegions({ sellers, people }: Rows): Map<number, string[]> {
  const regions = new Map(people.map(({ cells }) => [cells.person_id, cells.licence_region]));
  const bySeller = new Map<number, string[]>();
  for (const { cells } of sellers) {
    const region = regions.get(cells.person_id);
    if (cells.seller_no === undefined || region === undefined || region === '') continue;
    bySeller.set(cells.seller_no, [...(bySeller.get(cells.seller_no) ?? []), region]);
  }
  return bySeller;
}

/** Where the pieces were taken when every tag shows the State of a partner's licence, and it is not the sale's. */
function takenInOf(tags: readonly TagLine[], saleRegion: string | undefined, licences: readonly string[]): string {
  const states = new Set(tags.map(({ tag }) => stateOf(tag)).filter((state) => state !== null));
  const [state, ...others] = states;
  if (saleRegion === undefined || state === undefined || others.length > 0) return '';
  if (regionShows(saleRegion, state)) return '';
  return licences.find((region) => regionShows(region, state)) ?? '';
}

function stateOf(tag: string): string | null {
  const parsed = parseTag(tag);
  return parsed.ok ? parsed.value.state : null;
}

function regionShows(region: string, state: string): boolean {
  return region.slice(region.indexOf('-') + 1) === state;
}

interface Judged {
  readonly lotNo: LotNo;
  /** Undefined where it could not be read: then only each tag by itself is judged. */
  readonly count: number | null | undefined;
  readonly goods: Row<RowOf<'goods'>>['cells'];
  readonly tags: readonly TagLine[];
  readonly regions: readonly string[];
}

function faultsOf({ lotNo, count, goods, tags, regions }: Judged): TagFault[] {
  const { name = '', export_tag: exportTag, tag_species_code: tagSpeciesCode = '' } = goods;
  if (exportTag === undefined) return [];
  return decideTags({
    goods: { name, exportTag, tagSpeciesCode },
    lot: { lotNo, count: count ?? null },
    tags: tags.map(({ tag }) => ({ tag, condition: 'intact' })),
    regions,
    pieceCountRequired: count !== undefined,
  });
}
