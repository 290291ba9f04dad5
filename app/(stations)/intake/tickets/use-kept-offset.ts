'use client';

import { useEffect, useState } from 'react';

const KEPT = 'peltry-label-offset';

/** The printer's offset in millimetres as typed, kept in this browser: it belongs to the printer beside it. */
export function useKeptOffset() {
  const [right, setRight] = useState('');
  const [down, setDown] = useState('');
  useEffect(() => {
    const [keptRight = '', keptDown = ''] = read();
    setRight(keptRight);
    setDown(keptDown);
  }, []);
  const keep = () => {
    try {
      localStorage.setItem(KEPT, JSON.stringify([right, down]));
    } catch {
      // A browser that keeps nothing asks again next time.
    }
  };
  return { right, down, setRight, setDown, keep };
}

function read(): string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEPT) ?? '[]');
    return Array.isArray(kept) ? kept.filter((one) => typeof one === 'string') : [];
  } catch {
    return [];
  }
}
