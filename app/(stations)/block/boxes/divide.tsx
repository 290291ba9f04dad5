'use client';

import { useEffect, useState } from 'react';
import { bufferKeys, focusNext, takeBufferedKeys } from '#app/(stations)/block/key-buffer.ts';
import { TextField } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { BlockLot } from '#db/outcome/block-view.ts';
import { Box, type BoxContext, useMounted, withUnsavedText } from './box.tsx';

/** A lot that is divided on the table: its parts are called one after the other, in its place. */
export function Divide({ lot, context, close }: BoxContext & { readonly lot: BlockLot }) {
  const [pieces, setPieces] = useState('');
  const [weights, setWeights] = useState('');
  const [untaken, setUntaken] = useState('');
  const [line, setLine] = useState<number>();
  const { give, busy, refusal, clear } = useGive('block');
  const wanted = useMounted();
  const waits = busy || line !== undefined;
  // Until the view has the parts, the whole lot would be up, and take the price that is typed for the first of them.
  const divided = line !== undefined && context.view.line >= line;
  useEffect(() => {
    if (divided) close();
  }, [divided, close]);
  const enter = async () => {
    if (focusNext() || waits) return;
    bufferKeys();
    const parts = partsOf(listed(pieces), listed(weights));
    const reply = await give('lot.divide', { lotId: lot.lotId, parts }, `Lot ${lot.lotNo} divided`);
    if (!wanted.current) return;
    if (reply.ok) setLine(reply.line);
    else setUntaken(takeBufferedKeys());
  };
  const error = refusal && withUnsavedText(refusal.message, untaken);
  const field = (value: string, change: (text: string) => void) => ({
    value,
    readOnly: waits,
    onText: (text: string) => {
      change(text);
      clear();
    },
  });
  return (
    <Box
      label={`Divide lot ${lot.lotNo}`}
      enter={() => void enter()}
      close={close}
      waitsFor={waits ? 'Waiting for the server to divide it.' : undefined}
    >
      {lot.count !== null && (
        <TextField
          {...field(pieces, setPieces)}
          autoFocus
          label="Pieces of each part"
          hint={`With a plus between; together ${lot.count}.`}
          inputMode="numeric"
          error={error}
        />
      )}
      {lot.weightThousandths !== null && (
        <TextField
          {...field(weights, setWeights)}
          autoFocus={lot.count === null}
          label="Weight of each part"
          hint={`With a plus between; together ${lot.quantity}.`}
          inputMode="decimal"
          error={lot.count === null ? error : undefined}
        />
      )}
    </Box>
  );
}

function listed(typed: string): string[] {
  return typed.split(/[\s,+]+/).filter((word) => word !== '');
}

function partsOf(pieces: readonly string[], weights: readonly string[]): { count: string; weight: string }[] {
  const many = Math.max(pieces.length, weights.length);
  return Array.from({ length: many }, (_, at) => ({ count: pieces[at] ?? '', weight: weights[at] ?? '' }));
}
