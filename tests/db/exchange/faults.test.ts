import { describe, expect, it } from 'vitest';
import { submitUntyped } from '#db/book/door.ts';
import { allSales } from '#db/sale/queries.ts';
import {
  caseFolder,
  changed,
  doorSays,
  filesIn,
  IMPORTER,
  importFiles,
  placesIn,
  problemsIn,
  withBook,
} from '#tests/support/exchange.ts';

const RIGHT = filesIn(caseFolder('by-hand'));
const NL = RIGHT['lots.csv']?.includes('\r\n') ? '\r\n' : '\n';

type Change = readonly [file: string, from: string, to: string];

/** A new last row. */
const row = (file: string, text: string): Change => {
  const last = (RIGHT[file] ?? '').trimEnd().split(/\r?\n/).at(-1) ?? '';
  return [file, last, `${last}${NL}${text}`];
};

const places = (...changes: Change[]) => placesIn(changed('by-hand', changes));

it('has nothing against a folder that is right', () => {
  expect(placesIn(RIGHT)).toEqual([]);
});

describe('a cell that cannot be read is told with its line and column', () => {
  it.each<[string, Change, string]>([
    ['a comma for the point', ['results.csv', '1,sold,112.75', '1,sold,"112,75"'], 'results.csv:2 price'],
    ['a price of 12,5 without quotes', ['results.csv', '1,sold,112.75,10', '1,sold,12,5,10'], 'results.csv:2 -'],
    ['an exponent', ['results.csv', '7.75', '1e3'], 'results.csv:3 price'],
    ['no number', ['results.csv', '7.75', 'NaN'], 'results.csv:3 price'],
    ['a minus', ['results.csv', '7.75', '-1'], 'results.csv:3 price'],
    ['half a cent', ['results.csv', '7.75', '0.005'], 'results.csv:3 price'],
    ['nothing', ['results.csv', '7.75', '0.00'], 'results.csv:3 price'],
    ['a price without an end', ['results.csv', '7.75', '7.'], 'results.csv:3 price'],
    ['a full-width digit', ['results.csv', '7.75', '\uff17.75'], 'results.csv:3 price'],
    [
      'a date that is not in the calendar',
      ['people.csv', 'M1,2026-12-31', 'M1,2026-02-30'],
      'people.csv:2 member_until',
    ],
    [
      'another order of the date',
      ['people.csv', 'L1,US-WY,2026-12-31', 'L1,US-WY,12/31/2026'],
      'people.csv:2 licence_expires',
    ],
    ['a State alone', ['people.csv', 'L1,US-WY', 'L1,WY'], 'people.csv:2 licence_region'],
    ['a person without a name', ['people.csv', 'Wren Tamarack', ''], 'people.csv:2 name'],
    ['a character that cannot be printed', ['people.csv', 'Wren Tamarack', 'Wren\u0007'], 'people.csv:2 name'],
    ['another word for yes', ['buyers.csv', 'FB10,yes', 'FB10,Yes'], 'buyers.csv:2 tax_exempt'],
    ['a measure that is none', ['lots.csv', '2,1,raccoon,piece', '2,1,raccoon,dozen'], 'lots.csv:3 by'],
    ['a measure left open', ['lots.csv', '2,1,raccoon,piece', '2,1,raccoon,'], 'lots.csv:3 by'],
    ['half a piece', ['lots.csv', 'piece,12', 'piece,12.5'], 'lots.csv:3 count'],
    ['a weight of four places', ['lots.csv', '7.35', '7.3512'], 'lots.csv:5 weight'],
    ['a minimum of a thousand with a comma', ['lots.csv', '100.00', '"1,000.00"'], 'lots.csv:2 minimum'],
    ['no lot number', ['results.csv', '6,passed', 'six,passed'], 'results.csv:7 lot_no'],
    ['no tag', ['tags.csv', 'US-CITES WY BOB 2025 000102', 'BOB 102'], 'tags.csv:3 tag'],
    ['an outcome that is none', ['results.csv', '6,passed', '6,unsold'], 'results.csv:7 outcome'],
    ['no parts', ['sellers.csv', '1,P2,1', '1,P2,0'], 'sellers.csv:3 parts'],
    ['a part of a part', ['sellers.csv', '1,P2,1', '1,P2,0.5'], 'sellers.csv:3 parts'],
    ['a charge that is none', ['charges.csv', '1,dues', '1,fine'], 'charges.csv:2 kind'],
    ['another way to pay', ['charges.csv', 'deducted', 'net'], 'charges.csv:2 how'],
    ['dues with a minus', ['charges.csv', '1,dues,25.00', '1,dues,-25.00'], 'charges.csv:2 amount'],
  ])('%s', (_, change, place) => {
    expect(places(change)).toEqual([place]);
  });

  it('says what to do, and what stands there', () => {
    expect(problemsIn(changed('by-hand', [['results.csv', '7.75', '1e3']]))).toEqual([
      'results.csv:3 price: Use digits and a point only, without letters or signs: 12.50. It says “1e3”.',
    ]);
  });
});

describe('rows that do not fit together', () => {
  it.each<[string, Change, string[]]>([
    ['a person twice', row('people.csv', 'P5,Somebody Else,,,,,,,,,,,'), ['people.csv:7 person_id']],
    ['goods twice', row('goods.csv', 'castor,Castor,,oz,no,,'), ['goods.csv:7 goods']],
    ['a partner twice', row('sellers.csv', '1,P1,1'), ['sellers.csv:5 person_id']],
    ['a buyer twice', row('buyers.csv', '10,P5,,no,,yes'), ['buyers.csv:4 buyer_no']],
    ['a lot twice', row('lots.csv', '7,2,raccoon,piece,1,,,,east,,no,'), ['lots.csv:9 lot_no']],
    ['a lot twice in another spelling', row('lots.csv', '007,2,raccoon,piece,1,,,,east,,no,'), ['lots.csv:9 lot_no']],
    ['a lot sold twice', row('results.csv', '2,sold,9.00,10'), ['results.csv:9 lot_no']],
    ['a tag twice on its lot', ['tags.csv', '000102', '000101'], ['tags.csv:3 tag']],
    ['a tag twice in another spelling', row('tags.csv', '1,us-cites/wy/bob/2025/000101'), ['tags.csv:5 tag']],
    ['a seller who is nobody', ['sellers.csv', '2,P3', '2,P9'], ['sellers.csv:4 person_id']],
    ['a buyer who is nobody', ['buyers.csv', '11,P5', '11,P9'], ['buyers.csv:3 person_id']],
    ['a lot of no seller number', ['lots.csv', '2,1,raccoon', '2,9,raccoon'], ['lots.csv:3 seller_no']],
    ['a lot of no goods', ['lots.csv', '2,1,raccoon', '2,1,racoon'], ['lots.csv:3 goods']],
    ['a tag of no lot', row('tags.csv', '70,US-CITES WY BOB 2025 000109'), ['tags.csv:5 lot_no']],
    ['a result of no lot', row('results.csv', '99,sold,1.00,10'), ['results.csv:9 lot_no']],
    ['a result with no such buyer', ['results.csv', '7.75,11', '7.75,12'], ['results.csv:3 buyer_no']],
    ['a charge to no seller number', ['charges.csv', '2,dues', '8,dues'], ['charges.csv:3 seller_no']],
    [
      'a commission for no goods',
      ['sale.json', '"bobcat": {', '"wolf": {'],
      ['sale.json:12 terms.commission_overrides.wolf'],
    ],
    ['sold without a price', ['results.csv', '2,sold,7.75,11', '2,sold,,11'], ['results.csv:3 price']],
    ['sold to nobody', ['results.csv', '2,sold,7.75,11', '2,sold,7.75,'], ['results.csv:3 buyer_no']],
    ['passed at a price', ['results.csv', '6,passed,,', '6,passed,5.00,'], ['results.csv:7 price']],
    ['bought back by a buyer', ['results.csv', '2,sold,7.75,11', '2,bought_back,7.75,11'], ['results.csv:3 buyer_no']],
    ['bought back without a price', ['results.csv', '2,sold,7.75,11', '2,bought_back,,'], ['results.csv:3 price']],
    [
      'not paid for, and nothing said of the fur',
      ['results.csv', '2,sold,7.75,11', '2,unpaid,7.75,11'],
      ['results.csv:3 fate'],
    ],
    [
      'not paid for by nobody',
      ['results.csv', '2,sold,7.75,11', '2,unpaid,,'],
      ['results.csv:3 price', 'results.csv:3 buyer_no', 'results.csv:3 fate'],
    ],
    ['passed to a buyer', ['results.csv', '6,passed,,', '6,passed,,10'], ['results.csv:7 buyer_no']],
    ['by weight without one', ['lots.csv', '7.35', ''], ['lots.csv:5 weight']],
    ['by the piece without a count', ['lots.csv', 'raccoon,piece,12', 'raccoon,piece,'], ['lots.csv:3 count']],
    ['by the lot without a count', ['lots.csv', 'muskrat,lot,40', 'muskrat,lot,'], ['lots.csv:6 count']],
    ['by the piece with a weight', ['lots.csv', 'raccoon,piece,12,', 'raccoon,piece,12,3.5'], ['lots.csv:3 weight']],
    ['a tag on goods that take none', row('tags.csv', '2,US-CITES WY BOB 2025 000109'), ['tags.csv:5 tag']],
    [
      'a tag missing on a lot that was sold',
      ['lots.csv', 'bobcat,piece,3', 'bobcat,piece,4'],
      ['results.csv:2 outcome'],
    ],
    [
      'a tag too many on a lot that was sold',
      ['lots.csv', 'bobcat,piece,3', 'bobcat,piece,2'],
      ['results.csv:2 outcome'],
    ],
    ['a tag of another kind', ['tags.csv', 'WY BOB 2025 000102', 'WY OTT 2025 000102'], ['tags.csv:3 tag']],
    ['a tag of another State', ['tags.csv', 'WY BOB 2025 000102', 'MT BOB 2025 000102'], ['tags.csv:3 tag']],
    [
      'a guest where only members sell',
      ['sale.json', '"guests_may_sell": true', '"guests_may_sell": false'],
      ['sellers.csv:4 person_id'],
    ],
    [
      'more than the season allows',
      ['goods.csv', 'bobcat,Bobcat,Lynx rufus,piece,yes,BOB,', 'bobcat,Bobcat,Lynx rufus,piece,yes,BOB,1'],
      ['lots.csv:2 count'],
    ],
  ])('%s', (_, change, expected) => {
    expect(places(change)).toEqual(expected);
  });

  it('a lot that waits for its tags is no fault, and comes in on hold', () => {
    const files = changed('by-hand', [
      ['results.csv', `1,sold,112.75,10${NL}`, ''],
      ['tags.csv', 'WY BOB 2025 000102', 'MT OTT 2025 000102'],
    ]);
    expect(withBook((book) => importFiles(book, files))).toMatchObject({ onHold: 1, stage: 'selling' });
  });

  it('what happened, happened: off the step, below the minimum, to a buyer who was not cleared', () => {
    const files = changed('by-hand', [
      ['results.csv', '1,sold,112.75', '1,sold,0.01'],
      ['buyers.csv', 'FB10,yes,X10,yes', 'FB10,yes,X10,no'],
      ['people.csv', 'L4,US-WY,2026-12-31', 'L4,US-WY,1999-12-31'],
    ]);
    expect(placesIn(files)).toEqual([]);
  });
});

describe('one slip is one problem', () => {
  it('a row that is wrong itself is still known to those who refer to it', () => {
    expect(places(['people.csv', 'P1,Wren Tamarack', 'P1,'])).toEqual(['people.csv:2 name']);
    expect(places(['lots.csv', '1,1,bobcat,piece,3', '1,1,bobcat,piece,three'])).toEqual(['lots.csv:2 count']);
    expect(places(['lots.csv', '1,1,bobcat,piece,3', '1,1,bobcat,piece'])).toEqual(['lots.csv:2 -']);
    expect(places(['lots.csv', '2,1,raccoon,piece,12,,L', '2,1,raccoon,piece,12,,"L'])).toEqual(['lots.csv:3 -']);
    expect(places(['lots.csv', '2,1,raccoon,piece,12,,L', '2,1,raccoon,piece,12,,12" long'])).toEqual(['lots.csv:3 -']);
  });

  it('a file or a column that is not there is told once', () => {
    const { 'people.csv': _, ...withoutPeople } = RIGHT;
    expect(placesIn(withoutPeople)).toEqual(['people.csv:1 -']);
    const { 'buyers.csv': __, ...withoutBuyers } = RIGHT;
    expect(placesIn(withoutBuyers)).toEqual(['buyers.csv:1 -']);
    const { 'goods.csv': ___, ...withoutGoods } = RIGHT;
    expect(placesIn(withoutGoods)).toContain('goods.csv:1 -');
    expect(placesIn(withoutGoods).filter((place) => !place.startsWith('sale.json'))).toEqual(['goods.csv:1 -']);
    expect(places(['lots.csv', 'lot_no,seller_no', 'lot_number,seller_no'])).toEqual([
      'lots.csv:1 lot_number',
      'lots.csv:1 lot_no',
    ]);
    expect(places(['lots.csv', ',note', ',note,note'])).toContain('lots.csv:1 note');
  });

  it('a wrong figure in sale.json hides nothing in the other files', () => {
    expect(
      places(
        ['sale.json', '"tax_pct": "6.5"', '"tax_pct": "6,5"'],
        ['tags.csv', 'WY BOB 2025 000102', 'MT BOB 2025 000102'],
      ),
    ).toEqual(['sale.json:18 terms.tax_pct', 'tags.csv:3 tag']);
  });
});

describe('the form of the files', () => {
  it('needs its four files', () => {
    expect(placesIn({})).toEqual(['sale.json:1 -', 'people.csv:1 -', 'sellers.csv:1 -', 'lots.csv:1 -']);
  });

  it('needs a header in each file', () => {
    expect(placesIn({ ...RIGHT, 'tags.csv': '' })).toEqual(['tags.csv:1 -', 'results.csv:2 outcome']);
    expect(placesIn({ ...RIGHT, 'bids.csv': '"lot_no,buyer_no\n1,2\n' })).toEqual(['bids.csv:1 -']);
  });

  it('is UTF-8, with or without a byte-order mark', () => {
    const latin = (RIGHT['people.csv'] ?? '').replace('\u0141ucja \u017bak', 'Zo\u00eb');
    expect(placesIn({ ...RIGHT, 'people.csv': Buffer.from(latin, 'latin1') })).toContain('people.csv:3 name');
    const wide = Buffer.from(`\ufeff${RIGHT['lots.csv']}`, 'utf16le');
    expect(placesIn({ ...RIGHT, 'lots.csv': wide })).toEqual(['lots.csv:1 -']);
    expect(
      placesIn({ ...RIGHT, 'sale.json': `\ufeff${RIGHT['sale.json']}`, 'lots.csv': `\ufeff${RIGHT['lots.csv']}` }),
    ).toEqual([]);
  });

  it('counts the lines of quoted cells, with either line end', () => {
    const note = 'for the youth camp';
    for (const newline of ['\n', '\r\n']) {
      const text = (RIGHT['lots.csv'] ?? '').replaceAll(/\r?\n/g, newline);
      const split = text
        .replace('12,,L', `12,,"a${newline}b${newline}${newline}c"`)
        .replace('100.00,no,', '100.00,maybe,');
      const late = split.replace(note, `"two${newline}lines"${newline}${newline}8,9,raccoon,piece,1,,,,,,no,`);
      expect(placesIn({ ...RIGHT, 'lots.csv': late })).toEqual(['lots.csv:2 donated', 'lots.csv:14 seller_no']);
    }
  });

  it('goes on behind a broken line', () => {
    const text = (RIGHT['lots.csv'] ?? '')
      .replace('2,1,raccoon', '2,1,"raccoon')
      .replace('3,1,opossum', '3,1,"opos"sum')
      .replace('7.35', '-7');
    expect(placesIn({ ...RIGHT, 'lots.csv': text })).toEqual(['lots.csv:3 -', 'lots.csv:4 -', 'lots.csv:5 weight']);
  });

  it('wants empty rows gone, and passes over empty lines', () => {
    expect(places(row('lots.csv', ',,,,,,,,,,,'))).toEqual(['lots.csv:9 -']);
    expect(placesIn({ ...RIGHT, 'lots.csv': `${RIGHT['lots.csv']}\r\n\r\n` })).toEqual([]);
  });

  it('names keys of sale.json by their path and line', () => {
    const sale = (from: string, to: string) => places(['sale.json', from, to]);
    expect(sale('"venue": "Grange hall",', '"venue": "Grange hall", "place": "x",')).toEqual(['sale.json:4 place']);
    expect(sale('"currency": "USD"', '"currency": "$"')).toEqual(['sale.json:8 currency']);
    expect(sale('"bidding": "floor"', '"bidding": "open"')).toEqual(['sale.json:9 bidding']);
    expect(sale('"name": "Worked by hand",', '')).toEqual(['sale.json:1 name']);
    expect(sale('"dues": "25.00"', '"dues": 25')).toEqual(['sale.json:22 terms.dues']);
    expect(sale('"dues": "25.00"', '"dues": "25.00", "dues": "25.00"')).toEqual(['sale.json:22 terms.dues']);
    expect(sale('"region": "US-WY",', '"region": "US-WY"')).toEqual(['sale.json:8 -']);
    expect(sale('"pct_of_minimum": "2" }', '"pct_of_minimum": "2" ]')).toEqual(['sale.json:16 -']);
    expect(placesIn({ ...RIGHT, 'sale.json': '[]' })).toEqual(['sale.json:1 -']);
  });
});

describe('the door', () => {
  it('takes no row in a form that no folder has', () => {
    withBook((book) => {
      const sale = JSON.parse((RIGHT['sale.json'] ?? '').replace(/"bobcat": \{[^}]*\}/, ''));
      const give = (people: unknown) =>
        submitUntyped(book, {
          ...IMPORTER,
          command: 'sale.import',
          station: 'office',
          key: 'key-1',
          input: { sale, people },
        });
      expect(give([[2, { person_id: 'P1', name: 'Wren', age: '40' }]])).toMatchObject({ ok: false, code: 'malformed' });
      expect(give([[2, { person_id: 1, name: 'Wren' }]])).toMatchObject({ ok: false, code: 'malformed' });
      expect(give([[0, { person_id: 'P1', name: 'Wren' }]])).toMatchObject({ ok: false, code: 'malformed' });
      expect(give([[2, { person_id: 'P1', name: 'Wren' }]])).toMatchObject({ ok: true, line: 1 });
    });
  });

  it('finds the same by itself, and the book stays empty', () => {
    withBook((book) => {
      const files = changed('by-hand', [
        ['results.csv', '7.75', '1e3'],
        ['lots.csv', '2,1,raccoon', '2,9,raccoon'],
        ['tags.csv', '000102', '000101'],
      ]);
      expect(doorSays(book, files)).toEqual(problemsIn(files));
      expect(allSales(book)).toEqual([]);
    });
  });

  it('takes the same sale once, and a sale of that name on another day', () => {
    withBook((book) => {
      importFiles(book, RIGHT);
      expect(placesIn(RIGHT, book)).toEqual(['sale.json:2 name']);
      expect(doorSays(book, RIGHT)).toEqual([
        expect.stringMatching(/^sale\.json:1 name: Nothing was imported: .* already/),
      ]);
      importFiles(book, {
        ...changed('by-hand', [['sale.json', '2026-02-28', '2027-02-27']]),
        'tags.csv': 'lot_no,tag\n',
        'results.csv': 'lot_no,outcome\n',
      });
      expect(allSales(book).map(({ name, heldOn }) => [name, heldOn])).toEqual([
        ['Worked by hand', '2027-02-27'],
        ['Worked by hand', '2026-02-28'],
      ]);
    });
  });
});

describe('what is said of the bank', () => {
  const paid = 'direction,buyer_no,method,amount,paid_at,deposit,on_statement\n';
  const sayings = (payments: string, deposits: string, arrivals = '') =>
    placesIn({
      ...RIGHT,
      'payments.csv': paid + payments,
      'deposits.csv': `deposit,day,cash,on_statement\n${deposits}`,
      'arrivals.csv': `method,day,amount,fee\n${arrivals}`,
    });
  const check = (direction: string, rest: string) => `${direction},10,check,5.00,2026-02-28,${rest}\n`;

  it('is right where a check that was taken in is in a deposit, and one that was written is marked', () => {
    const payments = check('in', '1,') + check('out', ',2026-03-01');
    expect(
      sayings(payments, '1,2026-02-28,0.00,2026-03-01\n2,2026-02-28,4.00,\n', 'card,2026-03-01,5.00,0.15\n'),
    ).toEqual([]);
  });

  it.each<[string, readonly [payments: string, deposits: string, arrivals?: string], string]>([
    ['a deposit that is not there', [check('in', '3,'), '1,2026-02-28,4.00,\n'], 'payments.csv:2 deposit'],
    ['a check written out in a deposit', [check('out', '1,'), '1,2026-02-28,4.00,\n'], 'payments.csv:2 deposit'],
    ['a check taken in that is marked', [check('in', ',2026-03-01'), ''], 'payments.csv:2 on_statement'],
    ['a deposit of nothing', ['', '1,2026-02-28,0.00,\n'], 'deposits.csv:2 cash'],
    ['a mark before the deposit', ['', '1,2026-02-28,4.00,2026-02-27\n'], 'deposits.csv:2 on_statement'],
    ['a number twice', ['', '1,2026-02-28,4.00,\n1,2026-02-28,4.00,\n'], 'deposits.csv:3 deposit'],
    ['a fee of all of it', ['', '', 'card,2026-03-01,5.00,5.00\n'], 'arrivals.csv:2 fee'],
  ])('refuses %s', (_, said, place) => {
    expect(sayings(...said)).toEqual([place]);
  });
});
