/** What an address asks of the log. A word that means nothing asks for nothing. */
import type { Word } from '#app/request/page-context.ts';
import { STATIONS } from '#db/book/command.ts';
import type { LogAsked } from '#db/worker/log-view.ts';
import { parseDate } from '#lib/date/date.ts';

const ASKED_WORDS = ['sale', 'lot', 'person', 'worker', 'station', 'from', 'to'] as const;

export function readQueryParams(word: Word, saleId: number | undefined): LogAsked {
  const given = (name: string) => word(name)?.trim() || undefined;
  const number = (name: string) =>
    /^\d{1,9}$/.test(given(name) ?? '') ? Number.parseInt(given(name) ?? '', 10) : undefined;
  const day = (name: string) => (parseDate(given(name) ?? '').ok ? given(name) : undefined);
  const about = { saleId, lotNo: given('lot')?.toUpperCase(), personId: number('person') };
  const station = STATIONS.find((one) => one === given('station'));
  return { ...about, worker: given('worker'), station, from: day('from'), to: day('to'), before: number('before') };
}

/** The same question as the words of an address, for another page of it. */
export function logAddress(word: Word, before?: number): string {
  const words = ASKED_WORDS.flatMap((name): [string, string][] => {
    const value = word(name);
    return value ? [[name, value]] : [];
  });
  return new URLSearchParams(before === undefined ? words : [...words, ['before', String(before)]]).toString();
}
