/** The printed settlement sheet: places the finished words and figures of its model, and works nothing out. */
import { Page } from '@react-pdf/renderer';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { look, type PaperSize, SIZES } from './look.ts';
import { Heading } from './settlement/heading.tsx';
import { LotTable } from './settlement/lot-table.tsx';
import { Reckoning } from './settlement/reckoning.tsx';
import { RunningFoot, RunningHead } from './settlement/running.tsx';
import { ExportTags, Terms } from './settlement/tags-and-terms.tsx';

export function SettlementSheetPages({ sheet, size }: { sheet: SettlementSheet; size: PaperSize }) {
  return (
    <Page size={SIZES[size]} style={look.page} wrap>
      <RunningHead sheet={sheet} />
      <Heading sheet={sheet} />
      <LotTable sheet={sheet} />
      <Reckoning sheet={sheet} />
      <ExportTags sheet={sheet} />
      <Terms sheet={sheet} />
      <RunningFoot sheet={sheet} />
    </Page>
  );
}
