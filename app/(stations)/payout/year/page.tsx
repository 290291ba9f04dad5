import type { Metadata } from 'next';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { ChoiceField } from '#app/ui/field.tsx';
import { Options } from '#app/ui/form.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { YEAR_STATIONS, yearView } from '#db/report/year.ts';
import { NO_ADVICE } from '#lib/paper/list.ts';

export const metadata: Metadata = { title: 'Year' };

export default payoutPage(
  '/payout/year',
  ({ book, sale, word }) => {
    const { year, years, papers } = yearView(book, { asked: word('year'), sale }, today(book));
    return (
      <section className="sheet">
        <h1>The year {year}</h1>
        <YearForm year={year} years={years} saleId={sale.id} />
        <p>
          <strong>{NO_ADVICE}</strong>
        </p>
        {papers.map(({ paper, list }) => (
          <section key={paper} aria-label={list.title}>
            <h2>{list.title}</h2>
            <ListPaperView list={{ ...list, caution: '' }} />
            <div className="acts">
              <PrintLink href={`/api/papers/${paper}?year=${year}`}>Print: {list.title}</PrintLink>
              <a className="button" href={`/api/papers/${paper}/csv?year=${year}`}>
                Save as CSV: {list.title}
              </a>
            </div>
          </section>
        ))}
      </section>
    );
  },
  YEAR_STATIONS,
);

interface YearFormProps {
  readonly year: string;
  readonly years: readonly string[];
  readonly saleId: number;
}

/** A plain form that asks by address: a year can be kept as a bookmark. */
function YearForm({ year, years, saleId }: YearFormProps) {
  return (
    <form method="get" action="/payout/year">
      <input type="hidden" name="sale" value={saleId} />
      <div className="fields">
        <ChoiceField label="Year" name="year" defaultValue={year}>
          <Options of={years.map((one) => [one, one])} />
        </ChoiceField>
      </div>
      <p className="acts">
        <button type="submit" className="act">
          Show this year
        </button>
      </p>
    </form>
  );
}
