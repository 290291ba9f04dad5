import { describe, expect, it } from 'vitest';
import { replayLog } from '#db/book/replay.ts';
import { buyerFile } from '#db/buyer/files.ts';
import { handOverView } from '#db/buyer/handover.ts';
import type { InputOf } from '#db/commands.ts';
import { log } from '#db/schema/index.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { exportFiles, importFiles, withBook } from '#tests/support/exchange.ts';
import { bobcatTag, type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

const [FIRST, SECOND, OTHER] = [bobcatTag(1).tag, bobcatTag(2).tag, bobcatTag(9).tag];
// 50 CFR 23.69(c), from memory: the federal replacement shows US-CITES, FWS-REPL and a number.
const FEDERAL = 'US-CITES FWS-REPL 001234';

/** Lot 1 of two bobcats is sold to buyer 10, lot 2 is not called, and lot 3 takes no tag. */
function soldHall(): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [{ tag: FIRST }, { tag: SECOND }] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [{ tag: OTHER }] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '300.00', buyerNo: 10 });
  return hall;
}

const said = (over: Partial<InputOf<'tag.mend'>> = {}): InputOf<'tag.mend'> => ({
  ...{ saleId: 1, lotNo: '1', tag: FIRST, found: 'broken', reason: 'cut when the bundle was tied' },
  ...over,
});

function tagsOnRecord({ book, saleId }: Hall): string[] {
  const file = buyerFile(book, saleId, 10);
  return file ? (purchaseRecord(file, '2026-02-28').rows[0]?.tags.map(({ words }) => words) ?? []) : [];
}

describe('tag.mend', () => {
  it('marks a tag that broke after the hammer on the purchase record, and the lot stays sold', () => {
    const hall = soldHall();
    hall.must('tag.mend', said(), 'till');
    expect(tagsOnRecord(hall)).toEqual([`${FIRST} (not exportable until replaced)`, SECOND]);
    expect(handOverView(hall.book, 1, 10)?.here[0]).toMatchObject({ tags: 2, waiting: 1 });
    expect(hall.refuses('tag.mend', said(), { code: 'already', field: 'tag' })).toContain('enter its replacement');
  });

  it('puts a replacement where the tag stood; the record names both', () => {
    const hall = soldHall();
    hall.must('tag.mend', said(), 'till');
    hall.must('tag.mend', said({ found: 'replaced', replacement: 'us-cites fws-repl 1234' }), 'intake');
    const short = 'US-CITES FWS-REPL 1234';
    expect(tagsOnRecord(hall)).toEqual([`${FIRST} (broken, replaced by ${short})`, `${short} (replacement)`, SECOND]);
    expect(handOverView(hall.book, 1, 10)?.here[0]).toMatchObject({ tags: 2, waiting: 0 });
    expect(hall.refuses('tag.mend', said(), { code: 'already', field: 'tag' })).toContain(`replaced by ${short}`);
  });

  it('takes back what was said, the last first', () => {
    const hall = soldHall();
    const second = { found: 'replaced', replacement: FEDERAL } as const;
    hall.must('tag.mend', said(second));
    hall.must('tag.mend', said({ tag: FEDERAL }));
    expect(hall.refuses('tag.mend', said({ found: 'whole' }), { code: 'conflict', field: 'tag' })).toContain(FEDERAL);
    hall.must('tag.mend', said({ tag: FEDERAL, found: 'whole' }));
    hall.must('tag.mend', said({ found: 'whole' }));
    expect(tagsOnRecord(hall)).toEqual([FIRST, SECOND]);
    expect(hall.refuses('tag.mend', said({ found: 'whole' }), { code: 'not_allowed', field: 'tag' })).toContain(FIRST);
  });

  it('lets the price of such a lot be corrected, but no lot with a broken tag be called again', () => {
    const hall = soldHall();
    hall.must('tag.mend', said());
    const corrected = hall.must('outcome.correct', {
      ...{ lotId: 1, replacesId: 1, kind: 'sold', price: '310.00', buyerNo: 10, reason: 'misheard' },
    });
    hall.must('outcome.reopen', { lotId: 1, replacesId: corrected.outcomeId, reason: 'late bid' });
    const again = { saleId: 1, lotNo: '1', kind: 'sold', price: '320.00', buyerNo: 10 } as const;
    expect(hall.refuses('outcome.record', again, { code: 'on_hold', field: 'lotNo' })).toContain(`${FIRST} is broken`);
  });

  it.each([
    [{ lotNo: '7' }, 'unknown', 'lotNo'],
    [{ tag: OTHER }, 'unknown', 'tag'],
    [{ lotNo: '2', tag: OTHER }, 'wrong_stage', 'lotNo'],
    [{ reason: ' ' }, 'malformed', 'reason'],
    [{ tag: 'WY BOB' }, 'malformed', 'tag'],
    [{ found: 'gone' }, 'malformed', 'found'],
    [{ found: 'replaced' }, 'missing', 'replacement'],
    [{ found: 'replaced', replacement: 'FWS-REPL 1' }, 'malformed', 'replacement'],
    [{ found: 'replaced', replacement: OTHER }, 'taken', 'replacement'],
    [{ found: 'replaced', replacement: SECOND }, 'taken', 'replacement'],
    [{ found: 'replaced', replacement: FIRST }, 'taken', 'replacement'],
    [{ found: 'replaced', replacement: 'US-CITES WY OTT 2025 000077' }, 'malformed', 'replacement'],
    [{ found: 'replaced', replacement: 'US-CITES MT BOB 2025 000077' }, 'malformed', 'replacement'],
  ] as const)('refuses %j with the book as it was', (over, code, field) => {
    soldHall().refusesUntyped('tag.mend', { ...said(), ...over }, { code, field });
  });

  it('is in the log with its reason, and a replay gives the same rows', () => {
    const hall = soldHall();
    hall.must('tag.mend', said({ found: 'replaced', replacement: FEDERAL }), 'till');
    const line = hall.book.sqlite.prepare("SELECT station, input FROM log WHERE command = 'tag.mend'").get();
    expect(line).toMatchObject({ station: 'till', input: expect.stringContaining('cut when the bundle was tied') });
    const replayed = replayLog(hall.book.db.select().from(log).all());
    expect(replayed.difference).toBeNull();
    expect(rowsOf(replayed.book).tag).toEqual(rowsOf(hall.book).tag);
  });

  it.each([
    ['awaits its replacement', {}, [FIRST, SECOND]],
    ['was replaced', { found: 'replaced', replacement: FEDERAL }, [FEDERAL, SECOND]],
  ] as const)(
    'a lot one of whose tags %s goes out as a folder, comes in again, and gives the same folder',
    (_, over, tags) => {
      const hall = soldHall();
      hall.must('tag.mend', said(over));
      const files = exportFiles(hall.book, 1);
      const ofFirstLot = files['tags.csv']?.split('\r\n').filter((row) => row.startsWith('1,'));
      expect(ofFirstLot).toEqual(tags.map((tag) => `1,${tag}`));
      withBook((book) => expect(exportFiles(book, importFiles(book, files).saleId)).toEqual(files));
    },
  );
});
