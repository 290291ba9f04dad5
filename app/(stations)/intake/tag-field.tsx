'use client';

import type { KeyboardEvent, Ref } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import type { LotTag } from '#lib/tag-check.ts';
import { tagsOf } from './line.ts';

interface TagFieldProps {
  readonly text: string;
  readonly broken: readonly string[];
  readonly onChange: (change: { readonly tags: string; readonly broken: readonly string[] }) => void;
  /** How many pieces the lot has; a scanner's Enter goes on once there is a tag for each. */
  readonly pieces: string;
  readonly head: string;
  readonly error?: string | undefined;
  readonly onEnter: () => void;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly autoFocus?: boolean;
}

/** Export tags as a list or a range, typed or scanned, with what the book will keep shown under it. */
export function TagField(props: TagFieldProps) {
  const { text, broken, onChange, pieces, head, error, onEnter, inputRef, autoFocus } = props;
  const read = tagsOf({ tags: text, broken }, head);
  const tags = read.ok ? read.value : [];
  const press = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key !== 'Enter' || event.ctrlKey) return;
    event.preventDefault();
    const more = read.ok && tags.length > 0 && tags.length < Number.parseInt(pieces, 10);
    // A second Enter on the same tags goes on with fewer of them: the lot is then on hold.
    if (more && !/[,;]\s*$/.test(text)) onChange({ tags: `${text.trimEnd()}, `, broken });
    else onEnter();
  };
  const mark = (tag: string, isBroken: boolean) =>
    onChange({ tags: text, broken: isBroken ? [...broken, tag] : broken.filter((one) => one !== tag) });
  return (
    <div className="wide tag-field">
      <TextField
        label="Export tags"
        hint={hintFor(head)}
        error={error}
        ref={inputRef}
        autoFocus={autoFocus}
        value={text}
        onKeyDown={press}
        onChange={(event) => onChange({ tags: event.target.value, broken })}
      />
      <p className="small soft" aria-live="polite">
        {read.ok ? `${tags.length} of ${pieces === '' ? '…' : pieces} tags` : read.message}
      </p>
      {tags.length > 0 && (
        <ul className="tags-read">
          {once(tags).map(({ tag, condition }, at) => (
            <li key={tag}>
              <code>{tag}</code>
              {condition === 'replacement' ? (
                <span> replacement</span>
              ) : (
                <CheckField
                  label={`Tag ${at + 1} is broken`}
                  checked={condition === 'broken'}
                  onChange={(event) => mark(tag, event.target.checked)}
                />
              )}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** A tag typed twice is listed once; that it is there twice the book says when the line is saved. */
function once(tags: readonly LotTag[]): LotTag[] {
  return [...new Map(tags.map((one) => [one.tag, one])).values()];
}

function hintFor(head: string): string {
  const range = 'A list with commas, or a range: 000101-000118.';
  return head === '' ? range : `${range} A number alone goes with ${head}. Empty: the lot is on hold.`;
}
