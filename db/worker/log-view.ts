/** The log as the office reads it: the newest lines first, by lot, person, worker, station and day, in words. */
import { asc } from 'drizzle-orm';
import type { Station } from '#db/book/command.ts';
import { lotByNumber } from '#db/book/find.ts';
import { canonical, type LogRow } from '#db/book/log.ts';
import { type Book, query, statement } from '#db/book/open.ts';
import { type CommandName, findCommand } from '#db/commands.ts';
import { TABLE_NAMES } from '#db/exchange/tables.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { log } from '#db/schema/index.ts';
import { endOfDay, startOfDay } from '#lib/date/date.ts';
import { parseLotNo } from '#lib/lot/number.ts';
import { logEntryInWords } from '#lib/worker/worker.ts';

export interface LogAsked {
  /** The sale whose lots are meant; lines of other sales are shown as well where no lot is asked for. */
  readonly saleId?: number | undefined;
  readonly lotNo?: string | undefined;
  readonly personId?: number | undefined;
  readonly worker?: string | undefined;
  readonly station?: Station | undefined;
  /** ISO 8601 dates of the line's time where the association is, both included. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  /** Only lines before this one, for turning the page. */
  readonly before?: number | undefined;
}

export interface LogLineView extends Pick<LogRow, 'at' | 'worker' | 'station' | 'command' | 'hash'> {
  readonly line: number;
  readonly words: string;
}

export interface LogView {
  readonly lines: readonly LogLineView[];
  /** The line to ask before for the next page, or null on the last one. */
  readonly older: number | null;
  readonly workers: readonly string[];
}

export const LINES_A_PAGE = 50;

const SAID = `coalesce(json_extract(input, '$.' || :field), json_extract(result, '$.' || :field))`;
const said = (field: string) => SAID.replaceAll(':field', `'${field}'`);

// RFC 8785 has one spelling for everything, so that a line whose text does not hold the words need not be read as JSON:
// that takes the greater part of the time. A long import is one line, and not searched at all: its lots and people are
// found by the line that their rows name.
const holds = (words: string) => `(instr(input, ${words}) > 0 OR instr(result, ${words}) > 0)`;
const IMPORT: CommandName = 'sale.import';
const SHORT = `command <> '${IMPORT}'`;

const PERSON = `${SHORT} AND ${holds(`'"personId":' || CAST(:personId AS INTEGER)`)} AND (${said('personId')} = :personId
  OR EXISTS (SELECT 1 FROM json_each(input, '$.partners') WHERE json_extract(value, '$.personId') = :personId))`;
const LOT = `${SHORT} AND ${holds(':lotText')} AND coalesce(${said('saleId')}, :saleId) = :saleId AND (${said('lotNo')} = :lotNo
  OR EXISTS (SELECT 1 FROM json_each(input, '$.lots') WHERE value = :lotNo))`;
const LOT_ID = `${SHORT} AND ${holds(`'"lotId":' || CAST(:lotId AS INTEGER)`)} AND ${said('lotId')} = :lotId`;

const WHERE = `seq < coalesce(:before, 9e15)
  AND (:worker IS NULL OR worker = :worker) AND (:station IS NULL OR station = :station)
  AND (:from IS NULL OR at >= :from) AND (:dayAfter IS NULL OR at < :dayAfter)
  AND (:personId IS NULL OR (${PERSON})
    OR seq IN (SELECT line FROM person WHERE id = :personId UNION SELECT line FROM particulars WHERE person_id = :personId))
  AND (:lotNo IS NULL OR (${LOT}) OR (${LOT_ID})
    OR seq IN (SELECT line FROM lot WHERE id = :lotId UNION SELECT line FROM outcome WHERE lot_id = :lotId))`;

type Row = Omit<LogRow, 'key' | 'prevHash'>;

// Plain SQL: nearly all of it is JSON that is searched, for which the query builder has no words.
const findPage = statement(({ sqlite }) => sqlite.prepare<[object], Row>(selectOf(INPUT_SHOWN)));
const findPart = statement(({ sqlite }) => sqlite.prepare<[object], Row>(selectOf('input')));

/** One page of lines. */
export function logView(book: Book, asked: LogAsked): LogView {
  const rows = findPage(book).all({ ...valuesOf(book, asked), most: LINES_A_PAGE + 1 });
  const lines = rows.slice(0, LINES_A_PAGE).map(viewOf);
  const older = rows.length > lines.length ? (lines.at(-1)?.line ?? null) : null;
  return { lines, older, workers: workersOf(book) };
}

const findWorkers = query(({ db }) => db.selectDistinct({ worker: log.worker }).from(log).orderBy(asc(log.worker)));

/** Everybody whose name stands in the log. */
function workersOf(book: Book): readonly string[] {
  const rows = findWorkers(book).all();
  return rows.map(({ worker }) => worker);
}

/** The next lines that fit, newest first, with what was entered: for a file that is written part by part. */
export function logPart(book: Book, asked: LogAsked, most: number): (LogLineView & { readonly input: string })[] {
  const rows = findPart(book).all({ ...valuesOf(book, asked), most });
  return rows.map((row) => ({ ...viewOf(row), input: row.input }));
}

/** What a page shows of an input it has in words; an import's is not even read. */
const INPUT_SHOWN = `CASE command WHEN '${IMPORT}' THEN '' ELSE input END AS input`;

function selectOf(input: string): string {
  return `SELECT seq, at, worker, station, command, ${input}, result, hash FROM log WHERE ${WHERE} ORDER BY seq DESC LIMIT :most`;
}

function valuesOf(book: Book, { saleId, lotNo, personId, worker, station, from, to, before }: LogAsked): object {
  const lot = lotNo === undefined ? undefined : lotIdOf(book, saleId, lotNo);
  const lotText = lotNo === undefined ? null : canonical(lotNo);
  const lots = { saleId: saleId ?? null, lotNo: lotNo ?? null, lotText, lotId: lot ?? null };
  const who = { personId: personId ?? null, worker: worker ?? null, station: station ?? null };
  const timeZone = timeZoneOf(book);
  const first = from === undefined ? null : startOfDay(from, timeZone);
  const dayAfter = to === undefined ? null : endOfDay(to, timeZone);
  return { ...lots, ...who, from: first, dayAfter, before: before ?? null };
}

function lotIdOf(book: Book, saleId: number | undefined, text: string): number | undefined {
  const read = parseLotNo(text);
  return read.ok && saleId !== undefined ? lotByNumber(book, saleId, read.value)?.id : undefined;
}

function viewOf({ seq, input, result, command, ...row }: Row): LogLineView {
  const label = findCommand(command)?.logLabel ?? command;
  const said = command === IMPORT ? WITHOUT_ROWS : JSON.parse(input);
  return { line: seq, ...row, command, words: logEntryInWords({ label, input: said, result: JSON.parse(result) }) };
}

/** The rows of a whole sale say nothing in words, and to read them as JSON takes as long as all the other lines. */
const WITHOUT_ROWS = Object.fromEntries(TABLE_NAMES.map((name) => [name, []]));
