import 'server-only';
import { ROOM, sharesNow } from '#app/server/guard/shares.ts';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';

/** More than these nobody reads. */
const MOST = 12;

/** Which devices use this server now, and how often one was turned away: to find the one that asks for too much. */
export function WhoConnects() {
  return (
    <section className="sheet">
      <ScrollRegion label="Devices connected now">
        <table className="log-lines">
          <caption>Devices connected now</caption>
          <ColumnHeads words={['Address']} figures={['Connections', 'Live pages', 'Turned away']} />
          <tbody>
            {sharesNow()
              .uses(MOST)
              .map(({ name, sockets, streams, refused }) => (
                <tr key={name}>
                  <td className="path">{name}</td>
                  <td className="figure">{sockets}</td>
                  <td className="figure">{streams}</td>
                  <td className="figure">{refused}</td>
                </tr>
              ))}
          </tbody>
        </table>
      </ScrollRegion>
      <p>
        An address has {ROOM.sockets} connections and {ROOM.streams} live pages at most. Turned away: since the server
        was started.
      </p>
    </section>
  );
}
