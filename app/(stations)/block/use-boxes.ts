'use client';

import { lazy, useEffect, useState } from 'react';

type Boxes = typeof import('#app/(stations)/block/boxes/boxes.tsx');

const TRY_AGAIN_MS = 1000;
const IDLE_WITHIN_MS = 1000;

let coming: Promise<Boxes> | undefined;

/** Fetched once; while the server does not answer, it is tried again until it does. */
function fetchBoxes(): Promise<Boxes> {
  coming ??= tryToFetch();
  return coming;
}

async function tryToFetch(): Promise<Boxes> {
  try {
    return await import('#app/(stations)/block/boxes/boxes.tsx');
  } catch {
    await new Promise((resolve) => setTimeout(resolve, TRY_AGAIN_MS));
    return tryToFetch();
  }
}

/** The server draws it with the page; in the browser it begins to listen when its code is here. */
export const Below = lazy(async () => ({ default: (await fetchBoxes()).Below }));

/**
 * What a key opens at the Block: fetched as soon as the browser has nothing better to do, and not when the key is
 * pressed, because by then the line may be down. Undefined until it is here.
 */
export function useBoxes(): Boxes | undefined {
  const [boxes, setBoxes] = useState<Boxes>();
  useEffect(() => whenIdle(() => void fetchBoxes().then(setBoxes)), []);
  return boxes;
}

/** Safari does not say when it is idle. */
function whenIdle(act: () => void): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(act, { timeout: IDLE_WITHIN_MS });
  else setTimeout(act, IDLE_WITHIN_MS / 5);
}
