import type { Metadata } from 'next';
import { connection } from 'next/server';
import { guideNames, guideText, titleOf } from './guides.ts';
import { HelpFrame } from './help-frame.tsx';

export const metadata: Metadata = { title: 'Guides' };

/** By the hour at which somebody asks. */
const SHELVES: readonly (readonly [when: string, names: readonly string[]])[] = [
  ['Before the first sale', ['first-sale', 'set-up', 'moving-in', 'demo', 'glossary']],
  [
    'On the day',
    [
      ...['day-of-sale', 'intake', 'lot-lists', 'block', 'board', 'till', 'till-seldom'],
      ...['payout', 'bank', 'papers', 'cautions'],
    ],
  ],
  ['All year', ['office', 'workers', 'year', 'prices', 'privacy', 'stolen']],
  ['The machine', ['hall', 'backups', 'backup-drill', 'network', 'command-line', 'exchange']],
];

export default async function Page() {
  await connection();
  const names = guideNames();
  const placed = SHELVES.flatMap(([, those]) => those);
  // Behind them whatever else lies in the folder.
  const shelves = [...SHELVES, ['What it rests on', names.filter((name) => !placed.includes(name))] as const];
  return (
    <HelpFrame>
      <section className="sheet guide">
        <h1>Guides</h1>
        <div className="shelves">
          {shelves.map(([when, those]) => (
            <section key={when} aria-label={when}>
              <h2>{when}</h2>
              <ul>
                {those
                  .filter((name) => names.includes(name))
                  .map((name) => (
                    <li key={name}>
                      <a href={`/help/${name}`}>{titleOf(guideText(name) ?? '')}</a>
                    </li>
                  ))}
              </ul>
            </section>
          ))}
        </div>
      </section>
    </HelpFrame>
  );
}
