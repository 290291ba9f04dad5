/** The printed settlement sheet: places the finished words and figures of its model, and works nothing out. */
import { Page, View } from '@react-pdf/renderer';
import { FoldMarks, Heading, RunningFoot, RunningHead } from '#app/papers/settlement/heading.tsx';
import { LotTable } from '#app/papers/settlement/lot-table.tsx';
import { ExportTags, Reckoning, Terms } from '#app/papers/settlement/reckoning.tsx';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { type PaperSize, paperStyles, SIZES } from './styles.ts';

export function SettlementSheetPages({ sheet, size }: { sheet: SettlementSheet; size: PaperSize }) {
  return (
    <Page size={SIZES[size].name} style={paperStyles.page} wrap>
      <FoldMarks height={SIZES[size].height} />
      <RunningHead sheet={sheet} />
      <View style={paperStyles.body}>
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
