/**
 * Lines under each other, each a text of its own. A line break inside one text would be set in a font of the
 * renderer's own choice, because no typeface has a letter for it.
 */
import { Text, View, type ViewProps } from '@react-pdf/renderer';
import { createElement } from 'react';

interface LinesProps {
  readonly lines: readonly string[];
  readonly style?: ViewProps['style'];
}

export function Lines({ lines, style = {} }: LinesProps) {
  const texts = lines.filter((line) => line !== '').map((line) => createElement(Text, null, line));
  return createElement(View, { style }, ...texts);
}
