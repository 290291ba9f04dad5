'use client';

import type { FormEvent, ReactNode } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { TypedInput } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Station } from '#db/book/command.ts';
import type { CommandName } from '#db/commands.ts';

interface GiveButtonProps<N extends CommandName> {
  readonly station?: Station;
  readonly command: N;
  readonly input: TypedInput<N>;
  /** What the entry is called while it waits. */
  readonly label: string;
  readonly className?: string;
  readonly children: ReactNode;
}

/** One command at one press, with what was refused above the button. */
export function GiveButton<N extends CommandName>(props: GiveButtonProps<N>) {
  const { station = 'till', command, input, label, className, children } = props;
  const { give, busy, refusal } = useGive(station);
  return (
    <>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <button type="button" className={className} disabled={busy} onClick={() => void give(command, input, label)}>
        {children}
      </button>
    </>
  );
}

interface ReasonFormProps {
  readonly summary: string;
  /** What the reason is asked with, and what the button says. */
  readonly why: string;
  readonly act: string;
  readonly giving: Pick<ReturnType<typeof useGive>, 'busy' | 'refusal' | 'errorOf'>;
  readonly send: (reason: string) => Promise<{ readonly ok: boolean }>;
  readonly children?: ReactNode;
}

/** A form behind a summary that asks for a reason. */
export function ReasonForm({ summary, why, act, giving, send, children }: ReasonFormProps) {
  const { busy, refusal, errorOf } = giving;
  const { texts, field, reset } = useTexts({ reason: '' }, errorOf);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (!busy && (await send(texts.reason)).ok) reset();
  };
  return (
    <details>
      <summary>{summary}</summary>
      <form onSubmit={(event) => void submit(event)}>
        {refusal && errorOf('reason') === undefined && <Notice kind="stop" title={refusal.message} />}
        {children}
        <TextField label={why} {...field('reason')} />
        <SubmitActs label={act} />
      </form>
    </details>
  );
}

type Voided =
  | { readonly command: 'payment.void'; readonly input: { readonly paymentId: number } }
  | { readonly command: 'drawer.void'; readonly input: { readonly entryId: number } };

/** Voids an entry, with the reason. */
export function VoidForm(props: Voided & { readonly summary: string; readonly label: string; readonly act: string }) {
  const { command, input, summary, label, act } = props;
  const { give, ...giving } = useGive('till');
  const send = (reason: string) => give(command, { ...input, reason }, label);
  return <ReasonForm {...{ summary, act, giving, send }} why="Why it is voided" />;
}
