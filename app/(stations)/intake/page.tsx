import type { Metadata } from 'next';
import Link from 'next/link';
import { type Address, stationGround } from '#app/station.ts';
import { Live } from '#app/ui/live.tsx';
import { Masthead } from '#app/ui/masthead.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { countHeld } from '#db/queries/intake-lots.ts';
import { intakeView } from '#db/queries/intake-view.ts';
import { Arrivals } from './arrivals.tsx';
import { Cautions } from './cautions.tsx';
import { FindPerson } from './find-person.tsx';
import { IntakePapers } from './papers.tsx';
import { RulesForm } from './rules-form.tsx';
import { tableRules } from './table-rules.ts';
import './intake.css';

export const metadata: Metadata = { title: 'Intake' };

export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, sale } = await stationGround(searchParams, ['intake']);
  if (!sale) {
    return (
      <>
        <Masthead association={association} here="/intake" />
        <main id="main" className="page">
          <Notice kind="plain" title="There is no sale yet: plan one first." />
        </main>
      </>
    );
  }
  const { arrivals, sellers, lots } = intakeView(book, sale);
  const held = countHeld(book, sale);
  return (
    <>
      <Masthead association={association} sale={sale} here="/intake" />
      <Live />
      <main id="main" className="page table-top">
        <section className="sheet">
          <h1>Check in</h1>
          <FindPerson table={tableRules(sale)} />
        </section>
        <aside className="aside">
          <h2>Came in so far</h2>
          <p>
            {sellers} sellers, {lots} lots,{' '}
            <Link href={`/intake/holds?sale=${sale.id}`}>{held === 1 ? '1 lot' : `${held} lots`} on hold</Link>
          </p>
          <Arrivals arrivals={arrivals} saleId={sale.id} />
          <IntakePapers saleId={sale.id} lots={lots} />
        </aside>
        <div className="below">
          <Cautions />
          <RulesForm saleId={sale.id} licenceRequired={sale.licenceRequired} duesUntil={sale.duesUntil} />
        </div>
      </main>
    </>
  );
}
