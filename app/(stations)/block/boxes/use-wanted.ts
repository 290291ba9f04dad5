'use client';

import { useEffect, useRef } from 'react';

/** False once the box was left: what the server answers then is for nobody. */
export function useWanted(): { readonly current: boolean } {
  const wanted = useRef(true);
  useEffect(() => {
    wanted.current = true;
    return () => {
      wanted.current = false;
    };
  }, []);
  return wanted;
}
