'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { TypedInput } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { CommandName } from '#db/commands.ts';

interface VoidFormProps<N extends CommandName> {
  readonly command: N;
  readonly inputOf: (reason: string) => TypedInput<N>;
  readonly summary: string;
  /** How the entry is called while it waits. */
  readonly label: string;
  readonly act: string;
}

/** Takes something back that was written down, with the reason. */
export function VoidForm<N extends CommandName>({ command, inputOf, summary, label, act }: VoidFormProps<N>) {
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('till');
  const voidIt = (event: FormEvent) => {
    event.preventDefault();
    if (!busy) void give(command, inputOf(reason), label);
  };
  return (
    <details>
      <summary>{summary}</summary>
      <form onSubmit={voidIt}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label="Why it is voided"
          error={errorOf('reason')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
        />
        <div className="acts">
          <button type="submit">{act}</button>
        </div>
      </form>
    </details>
  );
}
