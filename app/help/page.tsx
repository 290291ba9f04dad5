import type { Metadata } from 'next';
import { connection } from 'next/server';
import { guideNames, guideText, titleOf } from './guides.ts';
import { HelpMasthead } from './help-masthead.tsx';
import './help.css';

export const metadata: Metadata = { title: 'Guides' };

/** In the order in which a newcomer needs them; whatever else lies in the folder comes behind. */
const FIRST = ['first-sale', 'set-up', 'moving-in', 'day-of-sale', 'office', 'intake', 'block', 'board', 'till'];
const THEN = ['payout', 'prices', 'papers', 'workers', 'backups', 'backup-drill', 'network', 'cautions', 'glossary'];

export default async function Page() {
  await connection();
  const names = guideNames();
  const known = [...FIRST, ...THEN].filter((name) => names.includes(name));
  const all = [...known, ...names.filter((name) => !known.includes(name))];
  return (
    <>
      <HelpMasthead />
      <main id="main" className="page">
        <section className="sheet guide">
          <h1>Guides</h1>
          <ul>
            {all.map((name) => (
              <li key={name}>
                <a href={`/help/${name}`}>{titleOf(guideText(name) ?? '')}</a>
              </li>
            ))}
          </ul>
        </section>
      </main>
    </>
  );
}
