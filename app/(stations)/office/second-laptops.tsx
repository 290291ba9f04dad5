'use client';

import { useEffect, useState } from 'react';
import type { FollowerView } from '#app/server/followers.ts';
import { Mark } from '#app/ui/marks.tsx';

const ASK_EVERY_MS = 2000;
/** It asks again within a second; one that has said nothing for so long is not there. */
const SILENT_SECONDS = 5;

interface SecondLaptopsProps {
  /** As it was when the page was drawn. */
  readonly first: readonly FollowerView[];
}

/** The second laptops that follow this one: how far behind each is, live, and since when it is silent. */
export function SecondLaptops({ first }: SecondLaptopsProps) {
  const [all, setAll] = useState(first);
  useEffect(() => {
    const ask = async () => {
      const answer = await fetch('/api/office/followers').catch(() => null);
      if (answer?.ok) setAll(await answer.json());
    };
    const asking = setInterval(() => void ask(), ASK_EVERY_MS);
    return () => clearInterval(asking);
  }, []);
  if (all.length === 0) return <p>No second laptop has asked since this program was started.</p>;
  return (
    <ul className="plain-list">
      {all.map(({ name, behind, silentSeconds }) => (
        <li key={name}>
          <Mark tone={silentSeconds > SILENT_SECONDS ? 'stop' : behind > 0 ? 'wait' : 'done'}>
            {name}: {behind === 1 ? '1 entry' : `${behind} entries`} behind
          </Mark>{' '}
          {silentSeconds > SILENT_SECONDS ? `not heard for ${inWords(silentSeconds)}` : 'heard now'}
        </li>
      ))}
    </ul>
  );
}

function inWords(seconds: number): string {
  if (seconds < 120) return `${seconds} seconds`;
  return `${Math.floor(seconds / 60)} minutes`;
}
