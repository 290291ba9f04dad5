'use client';

import { useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { IntakeLot } from '#db/queries/intake-lots.ts';
import { askTagYear, type SeasonTags, tagHead } from '#lib/tag-head.ts';
import { Question } from '../block/question.tsx';
import { tagsOf } from './line.ts';
import { TagField } from './tag-field.tsx';

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
        <button type="button" onClick={() => setOpen(true)}>
          Tags of lot {lot.lotNo}
        </button>
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
  const atField = unread ?? refused;
  return (
    <form
      aria-label={`Tags of lot ${lot.lotNo}`}
      onKeyDown={({ key }) => key === 'Escape' && setQuestion(undefined)}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <TagField
        text={typed.tags}
        broken={typed.broken}
        onChange={(now) => {
          setTyped(now);
          setQuestion(undefined);
        }}
        pieces={lot.typed.count}
        head={head}
        error={atField}
        onEnter={() => void save()}
        autoFocus
      />
      {question && <Question message={question} />}
      <div className="acts">
        <button type="submit" className="act">
          Save the tags
        </button>
        <button type="button" onClick={onDone}>
          Leave them
        </button>
      </div>
    </form>
  );
}
