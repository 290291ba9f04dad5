import Link from 'next/link';
import { connection } from 'next/server';

/** An empty page that is made anew for each reader, as the stations' pages are, with what the framework has for links. */
export default async function Page() {
  await connection();
  return (
    <main>
      Nothing, <Link href="/">and again</Link>
    </main>
  );
}
