'use client';

import { type FormEvent, useEffect, useRef, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { fieldsOver } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { readStored, writeStored } from '#app/ui/storage.ts';
import { readTicketRequest, type TicketWords } from '#lib/paper/tickets.ts';
import type { Refusal } from '#lib/result/result.ts';

/** A seller number and a lot number as they stand in the address; each empty for all. */
export interface Whose {
  readonly seller: string;
  readonly lot: string;
}

/**
 * How many lots there are, and the first and the last of their numbers: a browser is not sent a hundred thousand of
 * them for it.
 */
export interface TicketsAsked {
  readonly many: number;
  readonly first: string;
  readonly last: string;
}

interface TicketFormProps extends Whose, TicketsAsked {
  readonly saleId: number;
}

/**
 * What to print the tickets on. It opens the papers beside this page by itself where all is well; what is wrong is
 * said at its field by the same rules, and nothing is opened.
 */
export function TicketForm({ saleId, seller, lot, many, first, last }: TicketFormProps) {
  const [stock, setStock] = useState('labels');
  const [typed, setTyped] = useState(NO_LABELS);
  const [wrong, setWrong] = useState<readonly Refusal[]>([]);
  const form = useRef<HTMLFormElement>(null);
  const field = fieldsOver(
    typed,
    (over) => setTyped({ ...typed, ...over }),
    (name) => wrong.find((one) => one.field === name)?.message,
  );
  useEffect(() => setTyped({ ...NO_LABELS, ...readOffset() }), []);
  const check = (event: FormEvent, words: TicketWords) => {
    const read = readTicketRequest(words);
    setWrong(read.ok ? [] : [read, ...(read.also ?? [])]);
    if (read.ok) return writeStored('localStorage', OFFSET, JSON.stringify([typed.right, typed.down]));
    event.preventDefault();
    const field = read.field ?? '';
    form.current?.querySelector<HTMLInputElement>(`[name="${field}"]`)?.focus();
  };
  const words = stock === 'labels' ? typed : NO_LABELS;
  return (
    <form
      ref={form}
      action="/api/papers/tickets"
      target="_blank"
      rel="noopener"
      noValidate
      onSubmit={(event) => {
        const pressed = (event.nativeEvent as SubmitEvent).submitter as HTMLButtonElement | null;
        check(event, { ...words, stock: pressed?.value === 'alignment' ? 'alignment' : stock });
      }}
    >
      <p>{whoseWords({ seller, lot, many, first, last })}</p>
      <input type="hidden" name="sale" value={saleId} />
      {seller !== '' && <input type="hidden" name="seller" value={seller} />}
      {lot !== '' && <input type="hidden" name="lot" value={lot} />}
      <div className="fields">
        <ChoiceField label="Printed on" value={stock} onPick={setStock}>
          <option value="labels">Labels, 30 a sheet</option>
          <option value="halves">Paper, two a page</option>
        </ChoiceField>
        {stock === 'labels' &&
          LABEL_FIELDS.map((asked) => <TextField key={asked.name} {...asked} {...field(asked.name)} />)}
      </div>
      {wrong.length > 0 && <Notice kind="stop" title="Nothing was printed: put the marked fields right." />}
      <div className="acts">
        <button type="submit" className="act" name="stock" value={stock}>
          {many === 1 ? 'Print 1 ticket' : `Print ${many} tickets`}
        </button>
        {stock === 'labels' && (
          <button type="submit" name="stock" value="alignment">
            Print the alignment page
          </button>
        )}
      </div>
    </form>
  );
}

const NO_LABELS = { start: '', right: '', down: '' };

const LABEL_FIELDS = [
  { name: 'start', label: 'First label', hint: 'Still on the sheet, 1 to 30', inputMode: 'numeric', placeholder: '1' },
  { name: 'right', label: 'To the right, mm', hint: 'With a minus, to the left', inputMode: 'text', placeholder: '0' },
  { name: 'down', label: 'Down, mm', hint: 'With a minus, up', inputMode: 'text', placeholder: '0' },
] as const;

function whoseWords({ seller, lot, many, first, last }: Omit<TicketFormProps, 'saleId'>): string {
  if (lot !== '') return `The ticket of lot ${first}.`;
  const range = many === 1 ? `lot ${first}` : `${many} lots, ${first} to ${last}`;
  return seller === '' ? `All of this sale: ${range}.` : `Seller ${seller}: ${range}.`;
}

const OFFSET = 'peltry-label-offset';

/** The printer's offset in millimetres as typed, stored in this browser: it belongs to the printer beside it. */
function readOffset(): Partial<typeof NO_LABELS> {
  try {
    const stored: unknown = JSON.parse(readStored('localStorage', OFFSET) ?? '[]');
    const [right = '', down = ''] = Array.isArray(stored) ? stored.filter((one) => typeof one === 'string') : [];
    return { right, down };
  } catch {
    return {};
  }
}
