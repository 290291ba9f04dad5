/** The parts that every report shares: its head, its columns, and how a table is put together. */
import type { Sale } from '#lib/facts.ts';
import type { Report, ReportColumn, ReportKind, ReportTable } from '#lib/report/model.ts';
import type { SheetAssociation } from '#lib/sheet/input.ts';
import type { SheetHead } from '#lib/sheet/model.ts';
import { associationOf } from '#lib/sheet/parties.ts';
import { CAUTION } from '#lib/sheet/remarks.ts';
import { clean, dateInWords, joined } from '#lib/sheet/spell.ts';

/** Whose report it is, of which sale, when it was made, and the log as it stood then. */
export interface ReportGround {
  readonly association: SheetAssociation;
  readonly sale: Pick<Sale, 'name' | 'heldOn' | 'venue' | 'season' | 'currency'>;
  /** ISO 8601 date. */
  readonly issuedOn: string;
  readonly head: { readonly seq: number; readonly hash: string };
}

export interface ReportParts {
  readonly kind: ReportKind;
  readonly title: string;
  readonly mark?: string;
  readonly facts?: Report['facts'];
  readonly tables: readonly ReportTable[];
  readonly remarks?: readonly string[];
  readonly wide?: boolean;
}

export function reportOf(ground: ReportGround, parts: ReportParts): Report {
  const { sale, issuedOn } = ground;
  const words = joined([dateInWords(sale.heldOn), sale.venue, `season ${sale.season}`], ' · ');
  return {
    paper: 'report',
    version: 1,
    kind: parts.kind,
    title: parts.title,
    mark: parts.mark ?? '',
    issuedOn,
    issuedWords: `Made ${dateInWords(issuedOn)}`,
    head: headOf(ground.head),
    association: associationOf(ground.association),
    sale: { name: clean(sale.name), words, currency: sale.currency },
    facts: (parts.facts ?? []).map(({ label, words: text }) => ({ label, words: clean(text) })),
    tables: parts.tables,
    remarks: (parts.remarks ?? []).map(clean),
    caution: CAUTION,
    wide: parts.wide ?? false,
  };
}

/** The seal in groups of eight, so that two people can compare it aloud. */
export function headOf({ seq, hash }: ReportGround['head']): SheetHead {
  const groups = hash.match(/.{1,8}/g) ?? [];
  return { seq, hash, words: `Log line ${seq}, seal ${groups.join(' ')}` };
}

export function text(label: string, width: number): ReportColumn {
  return { label, align: 'left', width };
}

export function figures(label: string, width: number): ReportColumn {
  return { label, align: 'right', width };
}

/** A table whose cells are cleaned for a paper. Throws where a row has more or fewer cells than there are columns. */
export function tableOf(table: Omit<ReportTable, 'sum'> & { readonly sum?: ReportTable['sum'] }): ReportTable {
  const sum = table.sum ?? null;
  for (const row of sum === null ? table.rows : [...table.rows, sum]) {
    if (row.length !== table.columns.length) throw new RangeError(`${table.title}: a row has ${row.length} cells`);
  }
  return { ...table, sum, rows: table.rows.map((row) => row.map(clean)) };
}
