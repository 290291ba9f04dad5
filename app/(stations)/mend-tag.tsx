'use client';

import { useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Station } from '#db/book/command.ts';
import type { Finding, MendableTag } from '#lib/tag/mend.ts';

interface MendTagProps {
  readonly station: Station;
  readonly saleId: number;
  /** Called lots; those without tags are left out. */
  readonly lots: readonly { readonly lotNo: string; readonly tagList: readonly MendableTag[] }[];
}

const FOUND: Readonly<Record<Finding, string>> = {
  broken: 'it is broken, cut or lost, and not replaced yet',
  replaced: 'another tag was attached in its place',
  whole: 'take back what was said of it since the hammer',
};

const NOTHING = { lotNo: '', tag: '', found: 'broken' as Finding, replacement: '', reason: '' };

/** Says of one tag of a called lot that it broke or was replaced. The lot and its price stay as they are. */
export function MendTag({ station, saleId, lots }: MendTagProps) {
  const tagged = lots.filter(({ tagList }) => tagList.length > 0);
  if (tagged.length === 0) return null;
  return (
    <details className="more">
      <summary>A tag broke or was replaced</summary>
      <MendForm {...{ station, saleId, lots: tagged }} />
    </details>
  );
}

function MendForm({ station, saleId, lots }: MendTagProps) {
  const [typed, setTyped] = useState(NOTHING);
  const [done, setDone] = useState<string>();
  const { give, busy, elsewhere, errorOf } = useGive(station);
  const lot = lots.find(({ lotNo }) => lotNo === typed.lotNo) ?? lots[0];
  const tag = (lot?.tagList.find((one) => one.tag === typed.tag) ?? lot?.tagList[0])?.tag ?? '';
  const change = (part: Partial<typeof NOTHING>) => setTyped({ ...typed, ...part });
  const field = fieldsOver(typed, change, errorOf);
  const save = async () => {
    if (!lot) return;
    setDone(undefined);
    const { found, reason } = typed;
    const replacement = found === 'replaced' ? typed.replacement : '';
    const input = { saleId, lotNo: lot.lotNo, tag, found, replacement, reason };
    const reply = await give('tag.mend', input, `Tag of lot ${lot.lotNo}`);
    if (!reply.ok) return;
    setDone(`Lot ${lot.lotNo}, tag ${tag}: saved.`);
    setTyped({ ...NOTHING, lotNo: lot.lotNo });
  };
  return (
    <Form onEntered={save} busy={busy} done={done} wrong={elsewhere} aria-label="A tag broke or was replaced">
      <div className="fields">
        {lots.length > 1 && (
          <ChoiceField label="Lot" value={lot?.lotNo} onPick={(lotNo) => change({ lotNo })}>
            <Options of={lots.map(({ lotNo }) => [lotNo, lotNo])} />
          </ChoiceField>
        )}
        <ChoiceField label="Tag" {...field('tag')} value={tag}>
          <Options of={lot?.tagList.map((one) => [one.tag, one.words]) ?? []} />
        </ChoiceField>
        <ChoiceField label="What was found" value={typed.found} onPick={(value) => change({ found: value as Finding })}>
          <Options of={Object.entries(FOUND)} />
        </ChoiceField>
        {typed.found === 'replaced' && (
          <TextField
            label="Number of the replacement"
            hint="The whole number on the new tag, such as US-CITES FWS-REPL 001234"
            {...field('replacement')}
          />
        )}
        <TextField label="Why" hint="Such as: cut when the bundle was tied" {...field('reason')} />
      </div>
      <SubmitActs label="Save what was found" />
    </Form>
  );
}
