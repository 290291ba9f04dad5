import { describe, expect, it } from 'vitest';
import type { InputOf } from '#db/commands.ts';
import type { RefusalCode } from '#lib/result/result.ts';
import { decideTags, type LotTag, type TagCheck, type TagFaultCode } from '#lib/tag/check.ts';
import { expandTags, MOST_TAGS } from '#lib/tag/list.ts';
import { goods } from '#tests/support/facts.ts';
import { bobcatTag, GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

const bobcat = goods('bobcat', { name: 'Bobcat', exportTag: true, tagSpeciesCode: 'BOB' });
const good = (serial: number): LotTag => ({ ...bobcatTag(serial), condition: 'intact' });
const other = (tag: string): LotTag => ({ tag, condition: 'intact' });

interface Wrong {
  readonly change: Partial<TagCheck>;
  readonly sentence: string;
}

/** One row a code: the type asks for a row as soon as there is a new code. */
const FAULTS: Record<TagFaultCode, Wrong> = {
  tag_missing: {
    change: { tags: [good(1)] },
    sentence:
      "Lot 12 has 2 pieces and 1 good export tag: have the agency's officer attach 1 more, then enter its number.",
  },
  tag_extra: {
    change: { tags: [good(1), good(2), good(3)] },
    sentence:
      'Lot 12 has 2 pieces and 3 good export tags: count the pieces again, or take off 1 that is not on a piece.',
  },
  tag_doubled: {
    change: { tags: [good(1), good(2), good(2)] },
    sentence:
      'Lot 12: tag US-CITES WY BOB 2025 000002 is entered twice: take one off and enter the number on the other piece.',
  },
  tag_broken: {
    change: { tags: [good(1), { ...good(2), condition: 'broken' }] },
    sentence:
      "Lot 12: tag US-CITES WY BOB 2025 000002 is broken: have the agency's officer replace it, then enter the replacement's number.",
  },
  tag_other_species: {
    change: { tags: [good(1), other('US-CITES WY OTT 2025 000002')] },
    sentence:
      "Lot 12 is Bobcat, but tag US-CITES WY OTT 2025 000002 is of species OTT, not BOB: check the number on the piece, or the lot's goods.",
  },
  tag_other_state: {
    change: { tags: [good(1), other('US-CITES MT BOB 2025 000002')] },
    sentence:
      'Lot 12 may bear tags of WY, but tag US-CITES MT BOB 2025 000002 is of MT: check the number on the piece, or where it was taken.',
  },
  tag_not_taken: {
    change: { goods: goods('raccoon', { name: 'Raccoon' }), tags: [good(1)] },
    sentence:
      "Lot 12 is Raccoon, which takes no export tag: take US-CITES WY BOB 2025 000001 off, or check the lot's goods.",
  },
  tag_unreadable: {
    change: { tags: [good(1), other('000002')] },
    sentence: 'Lot 12: Begin with US-CITES, as on the tag: US-CITES WY BOB 2025 000101.',
  },
  count_missing: {
    change: { lot: { lotNo: '12', count: null } },
    sentence: 'Lot 12 takes one export tag a piece: enter the number of pieces.',
  },
};

describe('what holds a lot back', () => {
  it.each(Object.entries(FAULTS))('%s has its own sentence, and is the only fault said', (code, wrong) => {
    const right: TagCheck = {
      ...{ goods: bobcat, lot: { lotNo: '12', count: 2 }, tags: [good(1), good(2)] },
      ...{ regions: ['US-WY'], pieceCountRequired: true },
    };
    expect(decideTags(right)).toEqual([]);
    expect(decideTags({ ...right, ...wrong.change }).map(({ code, message }) => ({ code, message }))).toEqual([
      { code, message: wrong.sentence },
    ]);
  });

  it('no two faults share a sentence', () => {
    const sentences = Object.values(FAULTS).map(({ sentence }) => sentence);
    expect(new Set(sentences).size).toBe(sentences.length);
  });
});

/** Every way a text can fail to be tags. */
const TEXTS: readonly (readonly [string, string, RefusalCode, string])[] = [
  ['nothing', ' , ', 'missing', 'Enter the numbers on the tags, such as US-CITES WY BOB 2025 000101.'],
  ['no heading', 'WY BOB 2025 000101', 'malformed', 'Begin with US-CITES, as on the tag: US-CITES WY BOB 2025 000101.'],
  [
    'no State',
    'US-CITES 2025 000101',
    'malformed',
    'Enter the letters of the State or Tribe behind US-CITES: US-CITES WY BOB 2025 000101.',
  ],
  [
    'no species',
    'US-CITES WY 2025 000101',
    'malformed',
    'Enter the species code behind the State or Tribe: US-CITES WY BOB 2025 000101.',
  ],
  [
    'no year where one should stand',
    'US-CITES WY BOB 1825 000101',
    'malformed',
    'Enter one tag with one number; 1825 is not a year of take: US-CITES WY BOB 2025 000101.',
  ],
  [
    'no number',
    'US-CITES WY BOB',
    'malformed',
    "Enter the tag's own number, 3 to 12 digits or letters with a digit among them: US-CITES WY BOB 2025 000101.",
  ],
  [
    'a replacement without a number',
    'US-CITES FWS-REPL',
    'malformed',
    "Enter the tag's own number, 3 to 12 digits or letters with a digit among them: US-CITES FWS-REPL 001234.",
  ],
  [
    'a range that runs backwards',
    'US-CITES WY BOB 2025 000118 to 000101',
    'malformed',
    'Enter the lower number first: US-CITES WY BOB 2025 000118 to 000101 runs backwards.',
  ],
  [
    'a range between other letters',
    'US-CITES WY BOB 2025 A0101 to B0118',
    'malformed',
    'Enter the tags one by one: the ends of US-CITES WY BOB 2025 A0101 to B0118 begin with other letters.',
  ],
  [
    'a range longer than a list may be',
    'US-CITES WY BOB 2025 000001 to 000900',
    'too_large',
    `Enter at most ${MOST_TAGS} tags at a time, or check the range.`,
  ],
  [
    'a year that may be a range',
    'US-CITES WY BOB 2025-2040',
    'needs_answer',
    'Write "to" for a range of tags, or a space behind the year of take: US-CITES WY BOB 2025-2040.',
  ],
  [
    'tags run together',
    `US-CITES WY BOB 2025 ${'000101 '.repeat(20)}`,
    'too_large',
    'Part the tags with commas or put each on its own line.',
  ],
];

describe('what cannot be read as tags', () => {
  it.each(TEXTS)('%s is refused with a sentence of its own', (...row) => {
    const [, text, code, message] = row;
    expect(expandTags(text)).toMatchObject({ ok: false, code, message });
  });
});

const lotOf = (hall: Hall, of: string, tags: InputOf<'tags.set'>['tags']) => ({
  ...{ saleId: hall.saleId, sellerNo: 1, goods: of, count: String(tags.length || 1), tags },
});

/** Every way in which the door takes no tag at all, rather than taking it and holding the lot. */
const AT_THE_DOOR: readonly (readonly [string, (hall: Hall) => object, RefusalCode, string])[] = [
  [
    'goods that take no tag',
    (hall) => lotOf(hall, 'raccoon', [bobcatTag(7)]),
    'malformed',
    'Raccoon takes no export tag: leave the tags out, or check the goods.',
  ],
  [
    'a tag twice in one list',
    (hall) => lotOf(hall, 'bobcat', [bobcatTag(7), { tag: 'us-cites.wy.bob 2025/000007' }]),
    'taken',
    'Tag US-CITES WY BOB 2025 000007 is entered twice: enter the number on each piece once.',
  ],
  [
    'a tag of another lot of the sale',
    (hall) => lotOf(hall, 'bobcat', [bobcatTag(1)]),
    'taken',
    "Tag US-CITES WY BOB 2025 000001 is already on lot 1 (seller number 1): check the number on the piece. If both pieces show it, call the agency's officer.",
  ],
  [
    'text that is no tag',
    (hall) => lotOf(hall, 'bobcat', [{ tag: 'WY BOB 000007' }]),
    'malformed',
    'Begin with US-CITES, as on the tag: US-CITES WY BOB 2025 000101.',
  ],
];

describe('tags that the door does not take', () => {
  it.each(AT_THE_DOOR)('%s: refused in a sentence at the field of the tags, and the book as it was', (...row) => {
    const [, input, code, message] = row;
    const hall = openHall();
    hall.must('lot.add', lotOf(hall, 'bobcat', [bobcatTag(1)]));
    expect(hall.refusesUntyped('lot.add', input(hall), { code, field: 'tags' })).toBe(message);
    hall.book.close();
  });

  it('a tag that was sold at an earlier sale names that sale', () => {
    const hall = openHall();
    hall.must('lot.add', lotOf(hall, 'bobcat', [bobcatTag(1)]));
    hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '300.00', buyerNo: 10 });
    const next = nextSale(hall);
    expect(hall.refuses('lot.add', { ...lotOf(hall, 'bobcat', [bobcatTag(1)]), saleId: next }, ofTags)).toMatch(
      /^Tag US-CITES WY BOB 2025 000001 is already on lot 1 of Late Winter Sale \(seller number 1\): /,
    );
    hall.book.close();
  });

  it('a tag whose piece went home unsold comes back at the next sale, and is on that piece alone', () => {
    const hall = openHall();
    hall.must('lot.add', lotOf(hall, 'bobcat', [bobcatTag(1)]));
    hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'passed' });
    const back = { ...lotOf(hall, 'bobcat', [bobcatTag(1)]), saleId: nextSale(hall) };
    hall.must('lot.add', back);
    expect(hall.refuses('lot.add', back, ofTags)).toMatch(/is already on lot 1 \(seller number 1\)/);
    hall.book.close();
  });
});

const ofTags = { code: 'taken', field: 'tags' } as const;

/** Another sale a year later that takes goods in, with seller number 1. */
function nextSale({ must }: Hall): number {
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27', season: '2026-27' };
  const saleId = must('sale.plan', { sale, goods: GOODS }).saleId;
  must('sale.stage', { saleId, stage: 'intake', reason: '' });
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  return saleId;
}
