import type { Metadata } from 'next';
import { officePage } from '#app/(stations)/office/office-frame.tsx';
import { noteLooks } from '#app/request/looks.ts';
import { findPeople } from '#db/person/queries.ts';
import { PersonCard } from './person-card.tsx';

export const metadata: Metadata = { title: 'People' };

export default officePage({ here: '/office/people' }, async ({ book, sale, word }) => {
  const text = word('find') ?? '';
  const found = sale ? findPeople(book, { text, sale }) : [];
  await noteLooks(
    book,
    'card',
    found.map(({ personId }) => personId),
  );
  return (
    <section className="sheet">
      <h1>What is kept about somebody</h1>
      <p>
        Give it out when they ask, or remove how they are reached once all their sales are closed. Who looks is noted
        under <a href="/office/doors">Doors</a>.
      </p>
      <form className="find" method="get" action="/office/people">
        <label htmlFor="find">Name, member number or phone</label>
        <input id="find" name="find" defaultValue={text} autoComplete="off" />
        <button type="submit" className="act">
          Find
        </button>
      </form>
      {text !== '' && found.length === 0 && <p>Nobody in the book fits “{text}”. A part of the name is enough.</p>}
      {found.map((person) => (
        <PersonCard key={person.personId} person={person} />
      ))}
    </section>
  );
});
