import { askedOf } from '#app/(stations)/office/log/asked.ts';
import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { csvText } from '#db/exchange/csv-text.ts';
import { logLinesAsked } from '#db/queries/log-view.ts';
import { saleOfAddress } from '#db/queries/sales.ts';

/** A worker's passphrase is only there as its hash, and even that goes into no file. */
const KEPT_BACK = /^worker\./;

const COLUMNS = ['line', 'at', 'worker', 'station', 'command', 'words', 'input', 'hash'] as const;

/** The lines that the address asks for, newest first, as RFC 4180 CSV. */
export async function GET(request: Request): Promise<Response> {
  const allowed = await staffBook(['office']);
  if (!allowed.ok) return problem(allowed);
  const book = allowed.value;
  const { searchParams } = new URL(request.url);
  const word = (name: string) => searchParams.get(name) ?? undefined;
  const asked = askedOf(word, saleOfAddress(book, word('sale'))?.id);
  const rows = [...logLinesAsked(book, asked)]
    .map(withoutSecrets)
    .map(({ line, ...row }) => [
      String(line),
      ...COLUMNS.slice(1).map((column) => plainCell(row[column as Exclude<(typeof COLUMNS)[number], 'line'>])),
    ]);
  return new Response(csvText(COLUMNS, rows), {
    headers: {
      'content-type': 'text/csv; charset=utf-8; header=present',
      'content-disposition': 'attachment; filename="log.csv"',
      'cache-control': 'no-store',
    },
  });
}

function withoutSecrets<T extends { readonly command: string; readonly input: string }>(row: T): T {
  return KEPT_BACK.test(row.command) ? { ...row, input: '' } : row;
}

/** A spreadsheet must not take what somebody typed for a formula. */
function plainCell(text: string): string {
  return /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}
