import type { Metadata } from 'next';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { hallWords } from '#app/server/hall.ts';
import { signInsOf } from '#app/server/session.ts';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import { personById } from '#db/book/find.ts';
import { type Laptop, laptopsOf } from '#db/follow/laptops.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { looks } from '#db/sign-in/looks.ts';
import { devicesOf } from '#db/sign-in/sessions.ts';
import { happenings, refusals } from '#db/sign-in/store.ts';
import { workerById } from '#db/worker/queries.ts';
import { AskButton } from './ask-button.tsx';
import { DeviceTable, whenOf } from './device-table.tsx';

export const metadata: Metadata = { title: 'Doors' };

const HAPPENINGS = 50;

/** Everything by which somebody comes in now, each with the way to shut it, and who came in. */
export default officePage({ here: '/office/doors' }, ({ book }) => {
  const store = signInsOf(book);
  const timeZone = timeZoneOf(book);
  const words = hallWords(book.file);
  const nameOf = (id: number) => {
    const worker = workerById(book, id);
    return worker ? `${worker.name}: ${worker.stations.join(', ')}` : 'not known';
  };
  return (
    <>
      <section className="sheet">
        <h1>Doors</h1>
        <h2>Signed in now</h2>
        <DeviceTable devices={devicesOf({ book, store }, Date.now())} {...{ timeZone, nameOf }} />
      </section>
      <section className="sheet">
        <h2>Laptops that follow</h2>
        <p>A second laptop gets a key of its own for a code. It receives the whole log, as long as it has the key.</p>
        <Laptops laptops={laptopsOf(store)} timeZone={timeZone} />
        {words !== '' && (
          <p>
            It compares the six words of this laptop: <code>--words {words.replaceAll(' ', '-')}</code>
          </p>
        )}
        <div className="acts">
          <AskButton words="Make a code for a laptop" path="/api/office/laptops" body={{}} />
        </div>
      </section>
      <section className="sheet">
        <h2>Who came in</h2>
        <ScrollRegion className="scroll-x" label="Who came in">
          <table className="log-lines">
            <ColumnHeads words={['When', 'What', 'Who']} />
            <tbody>
              {happenings(store, HAPPENINGS).map(({ id, at, what, who }) => (
                <tr key={id}>
                  <td>{whenOf(at, timeZone)}</td>
                  <td>{what}</td>
                  <td>{who}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollRegion>
      </section>
      <section className="sheet">
        <h2>Who looked at whose record</h2>
        <Looks looked={looks(store, HAPPENINGS)} timeZone={timeZone} nameOf={(id) => personById(book, id)?.name} />
      </section>
      <section className="sheet">
        <h2>Who was refused</h2>
        <Refused refused={refusals(store, HAPPENINGS)} timeZone={timeZone} />
      </section>
    </>
  );
});

interface LooksProps {
  readonly looked: ReturnType<typeof looks>;
  readonly timeZone: string;
  readonly nameOf: (personId: number) => string | undefined;
}

function Looks({ looked, timeZone, nameOf }: LooksProps) {
  if (looked.length === 0) return <p>Nobody.</p>;
  return (
    <ScrollRegion className="scroll-x" label="Who looked at whose record">
      <table className="log-lines">
        <ColumnHeads words={['Last', 'Who', 'Whose', 'What', 'Times in that hour']} />
        <tbody>
          {looked.map(({ id, at, worker, personId, what, times }) => (
            <tr key={id}>
              <td>{whenOf(at, timeZone)}</td>
              <td>{worker}</td>
              <td>{nameOf(personId) ?? 'not in this book'}</td>
              <td>{what}</td>
              <td className="figure">{times}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

interface RefusedProps {
  readonly refused: ReturnType<typeof refusals>;
  readonly timeZone: string;
}

function Refused({ refused, timeZone }: RefusedProps) {
  if (refused.length === 0) return <p>Nobody.</p>;
  return (
    <ScrollRegion className="scroll-x" label="Who was refused">
      <table className="log-lines">
        <ColumnHeads words={['Last', 'What', 'Times', 'Name typed', 'From']} />
        <tbody>
          {refused.map(({ counted, at, what, times, who, client }) => (
            <tr key={counted}>
              <td>{whenOf(at, timeZone)}</td>
              <td>{what}</td>
              <td className="figure">{times}</td>
              <td>{who}</td>
              <td>{client}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

function Laptops({ laptops, timeZone }: { readonly laptops: readonly Laptop[]; readonly timeZone: string }) {
  if (laptops.length === 0) return <p>No laptop follows.</p>;
  return (
    <table className="log-lines">
      <ColumnHeads words={['Laptop', 'Paired', 'Last use', 'Shut out']} />
      <tbody>
        {laptops.map(({ id, name, paired, seen }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td>{whenOf(paired, timeZone)}</td>
            <td>{whenOf(seen, timeZone)}</td>
            <td>
              <AskButton words="Take its key away" about={name} path="/api/office/laptops" body={{ revoke: id }} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
