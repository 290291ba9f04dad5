import './intake.css';
import type { Metadata } from 'next';
import Link from 'next/link';
import { StationPage } from '#app/(stations)/station-page.tsx';
import { type SearchParams, stationContext } from '#app/request/page-context.ts';
import { Live } from '#app/ui/live.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { countHeld } from '#db/lot/queries.ts';
import { type Arrival, intakeView } from '#db/seller/queries.ts';
import { FindPerson } from './find-person.tsx';
import { RulesForm } from './rules-form.tsx';
import { tableRules } from './standings.tsx';

export const metadata: Metadata = { title: 'Intake' };

export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, sale } = await stationContext(searchParams, ['intake']);
  if (!sale) {
    return (
      <StationPage association={association} here="/intake">
        <Notice kind="plain" title="There is no sale yet: plan one first." />
      </StationPage>
    );
  }
  const { arrivals, sellers, lots } = intakeView(book, sale);
  const held = countHeld(book, sale);
  return (
    <StationPage {...{ association, sale }} here="/intake" className="page table-top">
      <Live />
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
    </StationPage>
  );
}

/** Who came to the table last, at any of the tables. */
function Arrivals({ arrivals, saleId }: { readonly arrivals: readonly Arrival[]; readonly saleId: number }) {
  if (arrivals.length === 0) return <p className="soft">Nobody yet.</p>;
  return (
    <ol className="arrivals">
      {arrivals.map(({ sellerNo, names, lots }) => (
        <li key={sellerNo}>
          <Link href={`/intake/seller/${sellerNo}?sale=${saleId}`} prefetch={false}>
            <span className="arrival-no">{sellerNo}</span> {names}
          </Link>
          <span className="soft figure">{lots === 1 ? '1 lot' : `${lots} lots`}</span>
        </li>
      ))}
    </ol>
  );
}

/** What everybody at the tables must know, after the leaflets of wildlife agencies, and whose the last word is. */
function Cautions() {
  return (
    <section aria-labelledby="cautions">
      <h2 id="cautions">At the tables</h2>
      <ul className="cautions">
        <li>Wear waterproof gloves for green goods and carcasses.</li>
        <li>Nothing to eat or drink at the tables; wash hands and tools afterwards.</li>
        <li>Tell the next table of green or whole goods.</li>
        <li>Tags and licences are the agency’s to judge: in doubt, send the seller to the officer’s table.</li>
      </ul>
    </section>
  );
}

/** The papers of the whole sale that the check-in table and the officer's table need. */
function IntakePapers({ saleId, lots }: { readonly saleId: number; readonly lots: number }) {
  if (lots === 0) return null;
  return (
    <section aria-labelledby="papers">
      <h2 id="papers">On paper</h2>
      <div className="acts">
        <Link className="button" href={`/intake/tickets?sale=${saleId}`}>
          Tickets of all lots
        </Link>
        <PrintLink href={`/api/papers/sale-list?sale=${saleId}`}>Sale list</PrintLink>
        <PrintLink href={`/api/papers/tag-list?sale=${saleId}`}>Tag list for the officer</PrintLink>
      </div>
    </section>
  );
}
