import { connection } from 'next/server';

/** An empty page that is made anew for each reader, as the stations' pages are. */
export default async function Page() {
  await connection();
  return <main>Nothing</main>;
}
