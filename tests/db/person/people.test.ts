import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import type { InputOf } from '#db/commands.ts';
import { findPeople } from '#db/person/queries.ts';
import { openHall } from '#tests/support/hall.ts';

const hall = openHall();
const enrol = (person: InputOf<'person.enrol'>) => hall.must('person.enrol', person);
enrol({ name: 'Zoë Łącka', phone: '(307) 555-0142', memberNo: 'LR-7', licenceNo: 'T-4310', city: 'Tamarack' });
enrol({ name: 'Søren Birchwood', phone: '307.555.0199', memberNo: 'LR-70' });
enrol({ name: 'A. Zoeller' });

function names(text: string, most = 8): string[] {
  const sale = saleById(hall.book, hall.saleId);
  if (!sale) throw new Error('the hall has no sale');
  return findPeople(hall.book, { text, sale, most }).map(({ name }) => name);
}

describe('finding a person in one box', () => {
  it.each([
    ['a name without its marks', 'lacka', ['Zoë Łącka']],
    ['a name with its marks', 'Łąc', ['Zoë Łącka']],
    ['parts of two names in any order', 'lac zo', ['Zoë Łącka']],
    ['the beginning of a name before the middle of one', 'zoe', ['Zoë Łącka', 'A. Zoeller']],
    ['a member number, the very one first', 'lr-7', ['Zoë Łącka', 'Søren Birchwood']],
    ['a phone with other signs between', '307-555-0142', ['Zoë Łącka']],
    ['a phone by its last digits', '0199', ['Søren Birchwood']],
    ['a licence', 't-43', ['Zoë Łącka']],
    ['signs that a pattern would take as anything', '%', []],
    ['an apostrophe', "o'", []],
    ['spaces only', '   ', []],
    ['nobody', 'zoe birch', []],
  ])('%s', (_, text, found) => {
    expect(names(text)).toEqual(found);
  });

  it('gives no more than it was asked for, and says which number somebody has at this sale', () => {
    expect(names('e', 2)).toHaveLength(2);
    const sale = saleById(hall.book, hall.saleId);
    if (!sale) throw new Error('the hall has no sale');
    const [ada] = findPeople(hall.book, { text: 'ada', sale });
    expect(ada).toMatchObject({ name: 'Ada Birch', sellerNos: [1], membership: { state: 'paid' } });
  });
});
