import { Mark, type Tone } from '#app/ui/mark.tsx';
import type { DrawerViewLine } from '#db/queries/drawer-view.ts';
import { METHOD_WORDS } from '#lib/buyer/input.ts';

const TONES: Readonly<Record<'over' | 'short' | 'even', Tone>> = { over: 'wait', short: 'stop', even: 'done' };

/** Each method with what was recorded, what should be there, what was counted, and what is over or short. */
export function Reckoning({ lines }: { readonly lines: readonly DrawerViewLine[] }) {
  return lines.filter(isUsed).map((line) => (
    <table key={line.method} className="reckoning drawer-reckoning">
      <caption>{METHOD_WORDS[line.method]}</caption>
      <tbody>
        {partsOf(line).map(([words, amount]) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td className="money">{amount}</td>
          </tr>
        ))}
        {line.difference && (
          <tr>
            <th scope="row">Counted less expected</th>
            <td className="money">
              <Mark tone={TONES[line.difference.kind]}>{line.difference.words}</Mark>
            </td>
          </tr>
        )}
      </tbody>
    </table>
  ));
}

/** Cash always; another method once it was taken or counted. */
function isUsed({ method, in: came, out, taken, expected, counted }: DrawerViewLine): boolean {
  return method === 'cash' || counted !== '' || [came, out, taken, expected].some((amount) => amount !== '0.00');
}

/** The parts that are something, and always what should be there. */
function partsOf(line: DrawerViewLine): (readonly [string, string])[] {
  const parts = [
    ['Float', line.float],
    ['Put in', line.added],
    ['Taken out', line.taken],
    ['Came in', line.in],
    ['Went out', line.out],
  ] as const;
  const counted = line.counted === '' ? [] : [['Counted', line.counted] as const];
  return [...parts.filter(([, amount]) => amount !== '0.00'), ['Should be there', line.expected], ...counted];
}
