/** Puts the parts of a verification together into one report. */
import { CannotOpenBook } from '../faults.ts';
import { EMPTY_HEAD } from '../log.ts';
import { messageOf } from './chain.ts';
import type { VerifyReport } from './report.ts';

type Parts = Omit<VerifyReport, 'ok' | 'problems' | 'firstBadLine'>;

/** The whole report from its parts: what is wrong, and the earliest log line that any part names. */
export function summed(parts: Parts): VerifyReport {
  const { opened, integrity, foreignKeys, chain, replay, money } = parts;
  const all = [opened, integrity, foreignKeys, chain, replay, money];
  const problems = [...new Set(all.filter(({ ok }) => !ok).map(({ message }) => message))];
  const { difference } = replay;
  const lines = [chain.firstBadLine, difference === null || difference.kind === 'schema' ? null : difference.line];
  const bad = lines.filter((line) => line !== null);
  const firstBadLine = bad.length === 0 ? null : Math.min(...bad);
  return { ok: problems.length === 0, firstBadLine, problems, ...parts };
}

/** The report of a file that cannot be opened as a book. */
export function cannotOpen(file: string, fault: unknown): VerifyReport {
  const message = fault instanceof CannotOpenBook ? fault.message : `${file} cannot be read: ${messageOf(fault)}.`;
  const part = { ok: false, message: 'Not looked at, because the file cannot be opened as a book.' };
  return {
    ok: false,
    file,
    firstBadLine: null,
    problems: [message],
    opened: { ok: false, message },
    integrity: { ...part, messages: [] },
    foreignKeys: { ...part, broken: [] },
    chain: { ...part, lines: 0, head: EMPTY_HEAD, firstBadLine: null },
    replay: { ...part, lines: 0, differences: 0, difference: null },
    money: { ...part, sales: 0, problems: [] },
  };
}
