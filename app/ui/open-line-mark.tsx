import 'server-only';
import { bookNow } from '#app/house.ts';
import { networkSaid } from '#db/queries/network.ts';
import { Mark } from './mark.tsx';

/** Stands on every screen of the staff while the office lets them work on an open line: nobody is to forget it. */
export function OpenLineMark() {
  const book = bookNow();
  if (!book || !networkSaid(book).plainStaff) return null;
  return (
    <p className="small open-line">
      <Mark tone="stop">Open line: not encrypted</Mark>
    </p>
  );
}
