import type { Metadata } from 'next';
import Link from 'next/link';
import { Ahead, backupsAhead } from '#app/backups/view.tsx';
import { followersView } from '#app/server/followers.ts';
import { epochInWords, takeoversOf } from '#db/follow/epoch.ts';
import { OFFICE_PAGES, officePage } from './office-frame.tsx';
import { SecondLaptops } from './second-laptops.tsx';

export const metadata: Metadata = { title: 'Office' };

export default officePage({}, ({ book }) => {
  const [lead] = takeoversOf(book);
  return (
    <section className="sheet">
      <h1>Office</h1>
      <Ahead ahead={backupsAhead(book)} />
      <h2>Second laptops</h2>
      {lead && (
        <p>
          “{lead.laptop}” leads this book since line {lead.line} of the log ({epochInWords(lead.epoch)}).
        </p>
      )}
      <SecondLaptops first={followersView(book)} />
      <h2>To look after</h2>
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
