/** What several papers are made of: lines under each other, what they come to, the head and the foot of a page. */
import { StyleSheet, Text, View, type ViewProps } from '@react-pdf/renderer';
import { createElement, type ReactNode } from 'react';
import type { SheetHead } from '#lib/settlement/model.ts';
import { Qr } from './codes.tsx';
import { fitted, result, SIDE } from './styles.ts';

interface LinesProps {
  readonly lines: readonly string[];
  readonly style?: ViewProps['style'];
}

/** Each line is a text of its own: a line break inside one text would be set in a font of the renderer's own choice. */
export function Lines({ lines, style = {} }: LinesProps) {
  const texts = lines.filter((line) => line !== '').map((line) => createElement(Text, null, line));
  return createElement(View, { style }, ...texts);
}

const styles = StyleSheet.create({
  rule: { position: 'absolute', bottom: 40, left: SIDE, right: SIDE, borderTopWidth: 0.5 },
  foot: { position: 'absolute', bottom: 29, left: SIDE, right: SIDE + 70, fontSize: 7, maxLines: 1 },
  page: { position: 'absolute', bottom: 29, right: SIDE, fontSize: 7 },
  pageBesideCode: { position: 'absolute', bottom: 29, right: SIDE + 34, fontSize: 7 },
  code: { position: 'absolute', bottom: 7, right: SIDE - 4 },
  codeWords: { position: 'absolute', bottom: 19, right: SIDE + 34, fontSize: 7 },
  log: { position: 'absolute', bottom: 19, left: SIDE, fontSize: 7 },
});

interface ResultProps {
  readonly label: string;
  readonly words: string;
  /** The room for the figure, in points. */
  readonly width: number;
  readonly style: NonNullable<ViewProps['style']>;
}

/** What a paper comes to, between two rules: its words at the left, the figure large at the right. */
export function Result({ label, words, width, style }: ResultProps) {
  return (
    <View style={style}>
      <Text style={result.label}>{label}</Text>
      <Text style={[result.figure, fitted(words, { size: 18, width })]}>{words}</Text>
    </View>
  );
}

interface PageFootProps {
  readonly children: ReactNode;
  /** The head of the log when it was drawn, or issued. */
  readonly head: SheetHead;
  /** An issued paper has it as a code as well, to hold a book against it. */
  readonly issued: boolean;
  /** Counts the pages of this sheet, not of the whole pile. */
  readonly bySheet?: boolean;
}

/** What paper it is, which page, and the head of the log. */
export function PageFoot({ children, head, issued, bySheet = false }: PageFootProps) {
  const short = `${head.seq}:${head.hash.slice(0, 20)}`;
  return (
    <>
      <View fixed style={styles.rule} />
      <Text fixed style={styles.foot}>
        {children}
      </Text>
      <Text
        fixed
        style={issued ? styles.pageBesideCode : styles.page}
        render={(at) =>
          bySheet ? `Page ${at.subPageNumber} of ${at.subPageTotalPages}` : `Page ${at.pageNumber} of ${at.totalPages}`
        }
      />
      <Text fixed style={styles.log}>
        {head.words}
      </Text>
      {issued && (
        <>
          <Text fixed style={styles.codeWords}>
            {short}
          </Text>
          <View fixed style={styles.code}>
            {/* In capitals the code is smaller; what reads it takes both. A module is four dots at 300 dots an inch. */}
            <Qr text={short.toUpperCase()} module={0.96} />
          </View>
        </>
      )}
    </>
  );
}
