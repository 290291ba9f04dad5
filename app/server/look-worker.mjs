import { parentPort, workerData } from 'node:worker_threads';
import Database from 'better-sqlite3';

// Only to read: the last one to close a file that may be written tidies up its log, and this one must change nothing.
const sqlite = new Database(workerData, { readonly: true, fileMustExist: true });
parentPort.postMessage(sqlite.prepare('PRAGMA quick_check(1)').pluck().get());
sqlite.close();
