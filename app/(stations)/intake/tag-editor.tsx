'use client';

import { useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { IntakeLot } from '#db/queries/intake-lots.ts';
import { tagsOf } from './line.ts';
import { TagField } from './tag-field.tsx';

interface TagEditorProps {
  readonly lot: IntakeLot;
  readonly head: string;
}

/** The tags of one lot put right in place: the hold is off the moment they are. */
export function TagEditor({ lot, head }: TagEditorProps) {
  const [open, setOpen] = useState(false);
  return (
    <div className="tag-editor">
      {open ? (
        <Editing {...{ lot, head }} onDone={() => setOpen(false)} />
      ) : (
        <button type="button" onClick={() => setOpen(true)}>
          Tags of lot {lot.lotNo}
        </button>
      )}
    </div>
  );
}

function Editing({ lot, head, onDone }: TagEditorProps & { readonly onDone: () => void }) {
  const [typed, setTyped] = useState({
    tags: lot.tags.map(({ tag }) => tag).join(', '),
    broken: lot.tags.filter(({ condition }) => condition === 'broken').map(({ tag }) => tag),
  } as { tags: string; broken: readonly string[] });
  const [unread, setUnread] = useState<string>();
  const { give, refusal, errorOf, busy } = useGive('intake');
  const save = async () => {
    if (busy) return;
    const read = tagsOf(typed, head);
    setUnread(read.ok ? undefined : read.message);
    if (!read.ok) return;
    const input = { lotId: lot.lotId, tags: read.value };
    const reply = await give({ command: 'tags.set', input, label: `Tags of lot ${lot.lotNo}` });
    if (reply.ok) onDone();
  };
  const atField = unread ?? errorOf('tags');
  return (
    <form
      aria-label={`Tags of lot ${lot.lotNo}`}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      {refusal && !atField && <Notice kind="stop" title={refusal.message} />}
      <TagField
        text={typed.tags}
        broken={typed.broken}
        onChange={setTyped}
        pieces={lot.typed.count}
        head={head}
        error={atField}
        onEnter={() => void save()}
        autoFocus
      />
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
