import Link from 'next/link';
import { Mark } from '#app/ui/mark.tsx';
import { amountWords } from '#lib/closing/decide-close.ts';
import type { ClosingLine, Why } from '#lib/closing/line.ts';

interface BalanceLineProps {
  readonly line: ClosingLine;
  readonly saleId: number;
}

/** One line of the balance with both sides, and what explains a difference, linked to where it is put right. */
export function BalanceLine({ line, saleId }: BalanceLineProps) {
  const { title, leftWords, left, rightWords, parts, right, difference, why } = line;
  return (
    <section className="balance-line" aria-label={title}>
      <h2>
        {title}{' '}
        <Mark tone={difference === 0 ? 'done' : 'stop'}>
          {difference === 0 ? 'at zero' : `${amountWords(line, difference)} off`}
        </Mark>
      </h2>
      <table>
        <tbody>
          <tr>
            <th scope="row">{leftWords}</th>
            <td className="money balance-side">{amountWords(line, left)}</td>
          </tr>
          {parts.map(({ label, amount }) => (
            <tr key={label} className="soft">
              <td>{label}</td>
              <td className="money">{amountWords(line, amount)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">{rightWords}</th>
            <td className="money balance-side">{amountWords(line, right)}</td>
          </tr>
        </tbody>
      </table>
      <Reasons why={why.slice(0, SHOWN)} line={line} saleId={saleId} />
      {why.length > SHOWN && (
        <details>
          <summary>And {why.length - SHOWN} more</summary>
          <Reasons why={why.slice(SHOWN)} line={line} saleId={saleId} />
        </details>
      )}
    </section>
  );
}

/** As many as are taken in at a glance; the others open on a press. */
const SHOWN = 6;

function Reasons({ why, line, saleId }: BalanceLineProps & { readonly why: readonly Why[] }) {
  if (why.length === 0) return null;
  return (
    <ul>
      {why.map((one) => (
        <li key={`${one.kind}-${one.ref}-${one.words}`}>
          <Link href={placeOf(one, saleId)} prefetch={false}>
            {one.words}
          </Link>
          {howMuch(line, one)}
        </li>
      ))}
    </ul>
  );
}

/** The part of the difference in brackets, where the words do not say it themselves. */
function howMuch(line: ClosingLine, { words, amount }: Why): string {
  const said = amountWords(line, amount);
  return words.includes(said) || (line.unit === 'lots' && amount === 1) ? '' : ` (${said})`;
}

/** Where it is put right. */
function placeOf({ kind, ref }: Why, saleId: number): string {
  if (kind === 'lot') return `/intake/lot/${ref}?sale=${saleId}`;
  if (kind === 'buyer') return `/till/${ref}?sale=${saleId}`;
  return kind === 'seller' ? `/payout/${ref}?sale=${saleId}` : `/till?sale=${saleId}`;
}
