import type { Metadata } from 'next';
import Link from 'next/link';
import { Ahead, backupsAhead } from '#app/backups/view.tsx';
import { OFFICE_PAGES, officePage } from './office-frame.tsx';

export const metadata: Metadata = { title: 'Office' };

export default officePage({}, ({ book }) => {
  return (
    <section className="sheet">
      <h1>Office</h1>
      <Ahead ahead={backupsAhead(book)} />
      <dl className="office-pages">
        {OFFICE_PAGES.map(({ path, name, says }) => (
          <div key={path}>
            <dt>
              <Link href={path}>{name}</Link>
            </dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
});
