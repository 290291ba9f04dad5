/** The steps of a guide: numbered items whose every sentence has one of a few forms, so that a browser can carry them out. */
import { lexer } from 'marked';

export type Step =
  | { readonly does: 'open'; readonly path: string }
  | { readonly does: 'type'; readonly text: string; readonly into: string | null }
  | { readonly does: 'press'; readonly name: string }
  | { readonly does: 'key'; readonly key: string }
  | { readonly does: 'choose'; readonly option: string; readonly field: string }
  | { readonly does: 'pick'; readonly text: string }
  | { readonly does: 'tick'; readonly field: string }
  | { readonly does: 'untick'; readonly field: string }
  | { readonly does: 'see'; readonly text: string };

export interface Chapter {
  readonly title: string;
  readonly steps: readonly Step[];
}

type Form = readonly [RegExp, (first: string, second: string) => Step];

const FORMS: readonly Form[] = [
  [/^Open `([^`]+)`\./, (path) => ({ does: 'open', path })],
  [/^Type `([^`]*)` into \*\*([^*]+)\*\*\./, (text, into) => ({ does: 'type', text, into })],
  [/^Type `([^`]+)`\./, (text) => ({ does: 'type', text, into: null })],
  [/^Press \*\*([^*]+)\*\*\./, (name) => ({ does: 'press', name })],
  [/^Press `([^`]+)`\./, (key) => ({ does: 'key', key })],
  [/^Choose `([^`]+)` in \*\*([^*]+)\*\*\./, (option, field) => ({ does: 'choose', option, field })],
  [/^Pick `([^`]+)`\./, (text) => ({ does: 'pick', text })],
  [/^Tick \*\*([^*]+)\*\*\./, (field) => ({ does: 'tick', field })],
  [/^Untick \*\*([^*]+)\*\*\./, (field) => ({ does: 'untick', field })],
  [/^See `([^`]+)`\.?(?= |$)/, (text) => ({ does: 'see', text })],
];

/** The chapters of a guide with the steps of their numbered items; throws where a sentence there has another form. */
export function chaptersOf(markdown: string): readonly Chapter[] {
  const chapters: { title: string; steps: Step[] }[] = [];
  for (const token of lexer(markdown)) {
    if (token.type === 'heading' && token.depth === 2) chapters.push({ title: token.text, steps: [] });
    if (token.type === 'list' && token.ordered) {
      const items = token.items.map((item: { text: string }) => item.text.replace(/\s+/g, ' '));
      chapters.at(-1)?.steps.push(...items.flatMap(stepsOf));
    }
  }
  return chapters;
}

/** The steps of one numbered item. */
export function stepsOf(item: string): Step[] {
  const steps: Step[] = [];
  for (let rest = item.trim(); rest !== ''; ) {
    const [step, length] = firstOf(rest);
    steps.push(step);
    rest = rest.slice(length).trim();
  }
  return steps;
}

function firstOf(text: string): [Step, number] {
  for (const [form, make] of FORMS) {
    const found = form.exec(text);
    if (found) return [make(found[1] ?? '', found[2] ?? ''), found[0].length];
  }
  throw new Error(`No step of a guide reads: ${text}`);
}
