import type { DrawerView } from '#db/queries/drawer-view.ts';
import { Reckoning } from './reckoning.tsx';

/** What was counted last, and what should lie in the drawer now. */
export function Counts({ view: { count, open, now, before } }: { readonly view: DrawerView }) {
  return (
    <aside className="aside">
      <h2>The last count</h2>
      {count ? <Reckoning lines={count.lines} /> : <p>Not counted yet.</p>}
      {open && (
        <details>
          <summary>What should lie in it now</summary>
          <Reckoning lines={now} />
        </details>
      )}
      {before !== '' && (
        <p className="small">
          {before} in cash was recorded before the drawer was opened first, and is not reckoned here: put it in as added
          if it lies in the drawer.
        </p>
      )}
    </aside>
  );
}
