'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { BlockLot } from '#db/queries/block-view.ts';
import { Box, goOn } from './box.tsx';

interface DivideProps {
  readonly lot: BlockLot;
  readonly close: () => void;
}

/** A lot that is divided on the table: its parts are called one after the other, in its place. */
export function Divide({ lot, close }: DivideProps) {
  const [pieces, setPieces] = useState('');
  const [weights, setWeights] = useState('');
  const { give, busy, refusal, clear } = useGive('block');
  const enter = async () => {
    if (goOn() || busy) return;
    const parts = partsOf(listed(pieces), listed(weights));
    const reply = await give({
      command: 'lot.divide',
      input: { lotId: lot.lotId, parts },
      label: `Lot ${lot.lotNo} divided`,
    });
    if (reply.ok) close();
  };
  const error = refusal?.message;
  return (
    <Box label={`Divide lot ${lot.lotNo}`} enter={() => void enter()} close={close}>
      {lot.count !== null && (
        <TextField
          autoFocus
          label="Pieces of each part"
          hint={`With a plus between; together ${lot.count}.`}
          inputMode="numeric"
          value={pieces}
          readOnly={busy}
          error={error}
          onChange={(event) => {
            setPieces(event.target.value);
            clear();
          }}
        />
      )}
      {lot.weightThousandths !== null && (
        <TextField
          autoFocus={lot.count === null}
          label="Weight of each part"
          hint={`With a plus between; together ${lot.quantity}.`}
          inputMode="decimal"
          value={weights}
          readOnly={busy}
          error={lot.count === null ? error : undefined}
          onChange={(event) => {
            setWeights(event.target.value);
            clear();
          }}
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
