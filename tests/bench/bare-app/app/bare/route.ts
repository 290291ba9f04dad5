/** The commit of a hammer entry with no door before it: the same rows, written bare, synchronous FULL. */
import Database from 'better-sqlite3';

type Write = (lotId: number, price: number) => number;

const kept = globalThis as { bareWrite?: Write };

function writer(): Write {
  const sqlite = new Database(process.env.BARE_BOOK ?? '');
  for (const pragma of ['journal_mode = WAL', 'synchronous = FULL', 'foreign_keys = ON']) sqlite.pragma(pragma);
  const outcome = sqlite.prepare(
    `INSERT INTO outcome (lot_id, kind, price_cents, buyer_id, at, line) VALUES (?, 'sold', ?, 1, ?, ?)`,
  );
  const log = sqlite.prepare(`INSERT INTO log VALUES (?, ?, 'bare', 'block', 'outcome.record', ?, ?, ?, ?, ?)`);
  let line = sqlite.prepare('SELECT max(seq) FROM log').pluck().get() as number;
  const hash = 'a'.repeat(64);
  const write = sqlite.transaction((lotId: number, price: number) => {
    const at = new Date().toISOString();
    outcome.run(lotId, price, at, line + 1);
    const input = JSON.stringify({ buyerNo: 1, kind: 'sold', lotNo: String(lotId), price: '12.25', saleId: 1 });
    log.run(line + 1, at, `bare-${line + 1}`, input, JSON.stringify({ lotId, outcomeId: lotId }), hash, hash);
    line += 1;
    return line;
  });
  return (lotId, price) => write.immediate(lotId, price);
}

export async function POST(request: Request): Promise<Response> {
  const { lotNo } = (await request.json()) as { lotNo: string };
  kept.bareWrite ??= writer();
  const line = kept.bareWrite(Number.parseInt(lotNo, 10), 1225);
  return Response.json({ ok: true, line });
}
