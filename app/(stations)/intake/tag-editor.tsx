'use client';

import { type KeyboardEvent, type Ref, useState } from 'react';
import { Question } from '#app/(stations)/block/question.tsx';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { IntakeLot } from '#db/lot/queries.ts';
import type { LotTag } from '#lib/tag/check.ts';
import { askTagYear, type SeasonTags, tagHead } from '#lib/tag/head.ts';
import { tagsOf } from './row.ts';

interface TagEditorProps {
  readonly lot: IntakeLot;
  readonly season: SeasonTags;
}

/** The tags of one lot put right in place: the hold is off the moment they are. */
export function TagEditor({ lot, season }: TagEditorProps) {
  const [open, setOpen] = useState(false);
  return (
    <div className="tag-editor">
      {open ? (
        <Editing {...{ lot, season }} onDone={() => setOpen(false)} />
      ) : (
        <Act words={`Tags of lot ${lot.lotNo}`} act={() => setOpen(true)} />
      )}
    </div>
  );
}

function Editing({ lot, season, onDone }: TagEditorProps & { readonly onDone: () => void }) {
  const { takenIn } = lot.typed;
  const head = tagHead(season, takenIn);
  const [typed, setTyped] = useState({
    tags: lot.tags.map(({ tag }) => tag).join(', '),
    broken: lot.tags.filter(({ condition }) => condition === 'broken').map(({ tag }) => tag),
  } as { tags: string; broken: readonly string[] });
  const [unread, setUnread] = useState<string>();
  const [question, setQuestion] = useState<string>();
  const { give, elsewhere, errorOf, busy } = useGive('intake');
  const save = async () => {
    if (busy) return;
    const read = tagsOf(typed, head);
    setUnread(read.ok ? undefined : read.message);
    if (!read.ok) return;
    // What the lot has already was asked about before.
    const fresh = read.value.map(({ tag }) => tag).filter((tag) => lot.tags.every((had) => had.tag !== tag));
    const asked = question === undefined ? askTagYear({ season, takenIn, tags: fresh }) : null;
    setQuestion(asked?.message);
    if (asked) return;
    const input = { lotId: lot.lotId, tags: read.value };
    const reply = await give('tags.set', input, `Tags of lot ${lot.lotNo}`);
    if (reply.ok) onDone();
  };
  const refused = errorOf('tags');
  return (
    <Form
      aria-label={`Tags of lot ${lot.lotNo}`}
      onKeyDown={({ key }) => key === 'Escape' && setQuestion(undefined)}
      onEntered={save}
      wrong={elsewhere}
    >
      <TagField
        text={typed.tags}
        broken={typed.broken}
        onChange={(now) => {
          setTyped(now);
          setQuestion(undefined);
        }}
        pieces={lot.typed.count}
        head={head}
        error={unread ?? refused}
        onEnter={() => void save()}
        autoFocus
      />
      {question && <Question message={question} />}
      <SubmitActs label="Save the tags" main>
        <Act words="Leave them" act={onDone} />
      </SubmitActs>
    </Form>
  );
}

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
        onText={(text) => onChange({ tags: text, broken })}
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
                  onTick={(checked) => mark(tag, checked)}
                />
              )}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** A tag typed twice is listed once; that it is there twice the book says when the row is saved. */
function once(tags: readonly LotTag[]): LotTag[] {
  return [...new Map(tags.map((one) => [one.tag, one])).values()];
}

function hintFor(head: string): string {
  const range = 'A list with commas, or a range: 000101-000118.';
  return head === '' ? range : `${range} A number alone goes with ${head}. Empty: the lot is on hold.`;
}
