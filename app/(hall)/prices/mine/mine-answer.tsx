import { Amount, Figure } from '#app/(hall)/prices/range-table.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { ColumnHeads, ScrollRegion, Unbroken } from '#app/ui/text.tsx';
import { shortDate } from '#lib/date/date.ts';
import { type Cents, negate, showMoney } from '#lib/money/money.ts';
import { type MineAnswer, type MineLine, type MineSums, mineKey } from '#lib/price/mine.ts';
import { fewInWords } from '#lib/price/words.ts';
import { termsInWords } from '#lib/sale/terms.ts';
import { listed } from '#lib/settlement/spelling.ts';
import { type MinePageContext, mineAddress } from './mine-context.ts';

/** The answer in a sentence, then every sum of it. Nothing where nothing was asked. */
export function MineAnswerView({ context }: { readonly context: MinePageContext }) {
  const { answer, asked } = context;
  const { low, high, without, refused } = answer;
  if (asked.every(({ typed }) => typed.trim() === '')) return null;
  return (
    <>
      {refused.size > 0 && <Refused context={context} />}
      {without.length > 0 && (
        <p className="notice">
          {listed(without)}: no answer. In season {context.season.season} too few people had a part in it, so nothing of
          it is counted here.
        </p>
      )}
      {low && high ? (
        <Sums context={context} low={low} high={high} />
      ) : (
        <p>There is no ground for an answer to this list.</p>
      )}
    </>
  );
}

function Refused({ context: { asked, answer } }: { readonly context: MinePageContext }) {
  return (
    <Notice kind="stop" title="Something in the list cannot be read">
      <ul>
        {asked.map((one) => {
          const refusal = answer.refused.get(mineKey(one));
          return refusal && <li key={mineKey(one)}>{`${one.name}: ${refusal.message}`}</li>;
        })}
      </ul>
    </Notice>
  );
}

interface SumsProps {
  readonly context: MinePageContext;
  readonly low: MineSums;
  readonly high: MineSums;
}

function Sums({ context, low, high }: SumsProps) {
  const { season, sale, membership, asked, answer } = context;
  const held = season.sales.map(({ name, heldOn }) => `${name}, ${shortDate(heldOn)}`);
  return (
    <section className="sheet" aria-labelledby="answer">
      <h2 id="answer">
        {between(low.afterCents, high.afterCents)} {sale.currency} after commission and fees
      </h2>
      <p>
        At the quarters of season {season.season} ({held.length > 0 ? held.join('; ') : 'from a price list'}) this list
        would have brought <strong>{between(low.beforeCents, high.beforeCents)}</strong>, and after the commission and
        fees of {sale.name}, {shortDate(sale.heldOn)}, a {membership} would have been left{' '}
        <strong>{between(low.afterCents, high.afterCents)}</strong>. That was then, and it is no forecast: a quarter of
        the pieces brought less than these prices, and a quarter more.
      </p>
      <SumTable title="At the price that a quarter brought or less" end="low" answer={answer} sums={low} />
      <SumTable title="At the price that three quarters brought or less" end="high" answer={answer} sums={high} />
      <p className="small">
        <Unbroken>{`Reckoned as one lot a kind, all of them sold. ${termsInWords(sale, asked).join(' ')}`}</Unbroken>
      </p>
      <p className="small">
        <a href={mineAddress(context)}>The address of this list</a>, to keep or to share.
      </p>
    </section>
  );
}

const SUMS = { beforeCents: 'Brought', commissionCents: 'Commission', feesCents: 'Fees', afterCents: 'Left' } as const;
const SUM_KEYS = Object.keys(SUMS) as (keyof typeof SUMS)[];

interface TableProps {
  readonly title: string;
  readonly end: 'low' | 'high';
  readonly answer: MineAnswer;
  readonly sums: MineSums;
}

function SumTable({ title, end, answer, sums }: TableProps) {
  return (
    <ScrollRegion className="range-scroll scroll-x slips-room" label={title}>
      <table className="range-table slips">
        <caption>{title}</caption>
        <ColumnHeads words={['Goods']} figures={['How many', 'Price', ...Object.values(SUMS)]} />
        <tbody>
          {answer.lines.map((line) => (
            <Line key={`${line.goods} ${line.range.measure}`} line={line} end={end} />
          ))}
          {answer.sellerNumberFeeCents > 0 && (
            <tr>
              <th scope="row">Seller number</th>
              <td colSpan={4} />
              <Amount head={SUMS.feesCents} cents={answer.sellerNumberFeeCents} />
              <Amount head={SUMS.afterCents} cents={negate(answer.sellerNumberFeeCents)} />
            </tr>
          )}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">Together</th>
            <td colSpan={2} />
            <Money sums={sums} />
          </tr>
        </tfoot>
      </table>
    </ScrollRegion>
  );
}

function Line({ line, end }: { readonly line: MineLine; readonly end: 'low' | 'high' }) {
  const { name, range, quantity, ...sums } = line;
  const unit = range.measure === 'piece' ? '' : ` ${range.measure}`;
  return (
    <tr>
      <th scope="row">
        {name} {range.few && <span className="small soft">{fewInWords(range)}</span>}
      </th>
      <Figure head="How many">
        {quantity}
        {unit}
      </Figure>
      <Amount head="Price" cents={end === 'low' ? range.p25Cents : range.p75Cents} />
      <Money sums={sums[end]} />
    </tr>
  );
}

function Money({ sums }: { readonly sums: MineSums }) {
  return SUM_KEYS.map((key) => <Amount key={key} head={SUMS[key]} cents={sums[key]} />);
}

function between(low: Cents, high: Cents): string {
  return low === high ? showMoney(low) : `${showMoney(low)} to ${showMoney(high)}`;
}
