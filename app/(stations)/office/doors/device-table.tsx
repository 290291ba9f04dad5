import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { Device } from '#db/sign-in/sessions.ts';
import { momentInWords } from '#lib/date/date.ts';
import { AskButton } from './ask-button.tsx';

interface DeviceTableProps {
  readonly devices: readonly Device[];
  readonly timeZone: string;
  /** Whose each is, with where they work; left out where all are of one worker. */
  readonly nameOf?: (workerId: number) => string;
}

/** Where somebody is signed in now, each with its last use and the way to end it. */
export function DeviceTable({ devices, timeZone, nameOf }: DeviceTableProps) {
  if (devices.length === 0) return <p>No device is signed in.</p>;
  return (
    <ScrollRegion className="scroll-x" label="Devices">
      <table className="log-lines">
        <ColumnHeads words={[...(nameOf ? ['Who'] : []), 'Device', 'Since', 'Last use', 'Shut out']} />
        <tbody>
          {devices.map(({ id, workerId, device, began, seen }) => (
            <tr key={id}>
              {nameOf && <th scope="row">{nameOf(workerId)}</th>}
              <td>{shortNameOf(device)}</td>
              <td>{whenOf(began, timeZone)}</td>
              <td>{whenOf(seen, timeZone)}</td>
              <td>
                <AskButton words="Sign out" about={shortNameOf(device)} path="/api/sign-out" body={{ device: id }} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

/** A day and a time where the association is, from milliseconds since 1970. */
export function whenOf(at: number, timeZone: string): string {
  return momentInWords(new Date(at).toISOString(), timeZone);
}

const KINDS = ['iPhone', 'iPad', 'Android', 'Windows', 'Macintosh', 'CrOS', 'Linux'];
const BROWSERS = ['Edg', 'Firefox', 'Chrome', 'Safari'];

/** `Android, Firefox`: what a person can tell from what a browser calls itself. */
function shortNameOf(device: string): string {
  const known = [KINDS, BROWSERS].flatMap((list) => list.find((word) => device.includes(word)) ?? []);
  return known.join(', ').replace('Edg', 'Edge') || device.slice(0, 40) || 'not known';
}
