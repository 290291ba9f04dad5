'use client';

import { type ComponentProps, type ReactNode, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
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

export interface AskOneProps<N extends CommandName> extends Pick<ComponentProps<'form'>, 'className' | 'aria-label'> {
  readonly station: Station;
  readonly command: N;
  /** What is sent beside the reason, or how all of it is made of what is typed. */
  readonly input?: Omit<TypedInput<N>, 'reason'>;
  readonly inputOf?: (text: string) => TypedInput<N>;
  /** The field of the input that is asked for: the reason, unless another is named. */
  readonly field?: string;
  /** What stands in the field until something else is typed. */
  readonly first?: string;
  /** How it is asked. */
  readonly asks: Pick<ComponentProps<typeof TextField>, 'label' | 'hint' | 'inputMode' | 'autoFocus'>;
  /** What the button says. */
  readonly act: string;
  readonly main?: boolean;
  /** What the entry is called while it waits, where that is not what the button says. */
  readonly entry?: string;
  readonly onDone?: (text: string) => void;
  /** Other buttons beside the button. */
  readonly beside?: ReactNode;
  /** What stands above the field. */
  readonly children?: ReactNode;
}

/** A form that asks one thing and gives one command with it. */
export function AskOne<N extends CommandName>(props: AskOneProps<N>) {
  const { station, command, input, field = 'reason', asks, act, main = false, entry = act, onDone } = props;
  const { inputOf = (reason) => ({ ...input, reason }) as TypedInput<N>, beside, children, className } = props;
  const { first = '' } = props;
  // The page may have read another amount since: what is typed stands above it.
  const [typed, setText] = useState<string | null>(null);
  const text = typed ?? first;
  const { give, busy, refusal } = useGive(station);
  const send = async () => {
    const reply = await give(command, inputOf(text), entry);
    if (!reply.ok) return;
    setText(null);
    onDone?.(text);
  };
  // A list is refused at one of its parts.
  const isHere = refusal?.field?.split('.')[0] === field;
  return (
    <Form
      {...{ className, 'aria-label': props['aria-label'], busy }}
      onEntered={send}
      wrong={isHere ? undefined : refusal?.message}
    >
      {children}
      <TextField {...asks} value={text} error={isHere ? refusal?.message : undefined} onText={setText} />
      <SubmitActs label={act} main={main} disabled={busy}>
        {beside}
      </SubmitActs>
    </Form>
  );
}

interface FoldedAskProps<N extends CommandName> extends Omit<AskOneProps<N>, 'asks'> {
  /** Where it is not what the button says. */
  readonly summary?: string;
  readonly says?: string;
  readonly asks?: AskOneProps<N>['asks'];
}

/** The same folded away, because it is seldom wanted. It asks why unless it asks something else. */
export function FoldedAsk<N extends CommandName>(props: FoldedAskProps<N>) {
  const { summary, says, asks = { label: 'Why?' }, ...ask } = props;
  return (
    <details className={says && 'acts'}>
      <summary>{summary ?? ask.act}</summary>
      {says && <p>{says}</p>}
      <AskOne asks={asks} {...ask} />
    </details>
  );
}
