import 'server-only';
import { ownHosts } from '#db/own-hosts.ts';

/** Where the hall and the staff reach this machine, to be read out or written on the wall. */
export function Addresses({ hosts }: { readonly hosts: readonly string[] }) {
  const { PELTRY_PORT: port, PELTRY_SECURE_PORT: securePort, PELTRY_HALL: hall } = process.env;
  const all = [...new Set([...ownHosts(), ...hosts])];
  return (
    <section className="sheet">
      <h1>Network</h1>
      {hall === 'yes' ? (
        <table className="log-lines">
          <caption>Addresses of this machine</caption>
          <thead>
            <tr>
              <th scope="col">For the hall</th>
              <th scope="col">For the staff</th>
            </tr>
          </thead>
          <tbody>
            {all.map((host) => (
              <tr key={host}>
                <td className="path">{`http://${host}:${port}/board`}</td>
                <td className="path">{securePort ? `https://${host}:${securePort}` : 'no encrypted line yet'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        <p>This server listens on the machine itself only. Start it with --hall to open it to the network.</p>
      )}
    </section>
  );
}
