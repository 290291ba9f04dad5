import { LocalTime } from '#app/ui/local-time.tsx';
import type { DrawerViewEntry } from '#db/queries/drawer-view.ts';
import { VoidForm } from '../void-form.tsx';
import { DONE } from './words.ts';

/** Everything that was done with the drawer, the oldest first. */
export function DrawerEntries({ entries }: { readonly entries: readonly DrawerViewEntry[] }) {
  if (entries.length === 0) return <p>Nothing yet.</p>;
  return (
    <ul className="payments">
      {entries.map(({ entryId, kind, cash, beside, note, at, worker, newest }) => (
        <li key={entryId}>
          <LocalTime at={at} /> {worker}: {DONE[kind]} <strong>{cash}</strong> in cash
          {beside.length > 0 && `, ${beside.join(', ')}`}
          {note !== '' && `, ${note}`}
          {newest && (
            <VoidForm
              command="drawer.void"
              inputOf={(reason) => ({ entryId, reason })}
              summary="Void this entry"
              label="Void an entry of the drawer"
              act="Void the entry"
            />
          )}
        </li>
      ))}
    </ul>
  );
}
