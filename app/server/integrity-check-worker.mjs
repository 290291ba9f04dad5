import { existsSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';
import Database from 'better-sqlite3';

// As in db/book/open-for-reading.ts: one who may write clears its own files away when it closes; beside a log that stands
// already, which may hold what a killed server wrote, this one only reads.
const sqlite = new Database(workerData, { readonly: existsSync(`${workerData}-wal`), fileMustExist: true });
sqlite.pragma('query_only = ON');
parentPort.postMessage(sqlite.prepare('PRAGMA quick_check(1)').pluck().get());
sqlite.close();
