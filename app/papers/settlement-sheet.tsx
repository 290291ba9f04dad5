/** The printed settlement sheet: places the finished words and figures of its model, and works nothing out. */
import { Page, View } from '@react-pdf/renderer';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { look, type PaperSize, SIZES } from './look.ts';
import { FoldMarks } from './settlement/fold-marks.tsx';
import { Heading } from './settlement/heading.tsx';
import { LotTable } from './settlement/lot-table.tsx';
import { Reckoning } from './settlement/reckoning.tsx';
import { RunningFoot, RunningHead } from './settlement/running.tsx';
import { ExportTags, Terms } from './settlement/tags-and-terms.tsx';

export function SettlementSheetPages({ sheet, size }: { sheet: SettlementSheet; size: PaperSize }) {
  return (
    <Page size={SIZES[size].name} style={look.page} wrap>
      <FoldMarks height={SIZES[size].height} />
      <RunningHead sheet={sheet} />
      <View style={look.body}>
        <Heading sheet={sheet} />
        <LotTable sheet={sheet} />
        <Reckoning sheet={sheet} />
        <ExportTags sheet={sheet} />
        <Terms sheet={sheet} />
      </View>
      <RunningFoot sheet={sheet} />
    </Page>
  );
}
