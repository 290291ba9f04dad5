/** Two short strokes at the left edge of the first page, where it is folded in three for an envelope. */
import { StyleSheet, View } from '@react-pdf/renderer';

const styles = StyleSheet.create({
  mark: { position: 'absolute', left: 16, width: 9, borderTopWidth: 0.5 },
});

export function FoldMarks({ height }: { height: number }) {
  return (
    <>
      <View style={[styles.mark, { top: height / 3 }]} />
      <View style={[styles.mark, { top: (height * 2) / 3 }]} />
    </>
  );
}
