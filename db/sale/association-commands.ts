import * as z from 'zod';
import { defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { dateOrNull, flag, readBy, rowId, shapeOf, someText, text } from '#db/book/inputs.ts';
import { updateRow } from '#db/book/rows.ts';
import { checkAgainstBook, folderInput, folderOfInput } from '#db/exchange/against-book.ts';
import { checkFolder } from '#db/exchange/check-folder.ts';
import { refusalOfProblems } from '#db/exchange/problem.ts';
import { saveFolder } from '#db/exchange/save-folder.ts';
import { association, network, sale as saleTable } from '#db/schema/index.ts';
import { parseTimeZone, shortDate } from '#lib/date/date.ts';
import { parseHostName } from '#lib/network/hosts.ts';
import { CONTACT_FIELDS } from '#lib/person/fields.ts';
import { accept, refuse } from '#lib/result/result.ts';

/** Says whose book this is: the name and address that stand on every paper, the paper's size, and the time zone. */
export const associationSet = defineCommand({
  name: 'association.set',
  summary: 'Sets the name, the address, the paper size and the time zone of the association.',
  logLabel: 'Association set',
  stations: ['office'],
  input: z.strictObject({
    name: someText,
    ...shapeOf(CONTACT_FIELDS),
    paper: z.enum(['letter', 'a4'], { error: 'Choose letter or a4.' }).default('letter'),
    /** The IANA name, such as America/Denver. Left out, it stays what it was. */
    timeZone: readBy(parseTimeZone).optional(),
  }),
  run(context, { timeZone, ...fields }) {
    // A zone that is not said leaves the one that is there: from line to line days do not change unasked.
    const row = { id: 1, ...fields, ...(timeZone === undefined ? {} : { timeZone }), line: context.line };
    context.book.db.insert(association).values(row).onConflictDoUpdate({ target: association.id, set: row }).run();
    return accept({ name: fields.name });
  },
});

const MOST_HOSTS = 20;

/** Says under which names the hall reaches this machine, and whether staff may work on an open line. */
export const networkSet = defineCommand({
  name: 'network.set',
  summary:
    'Says under which further names this machine is reached, whether staff may work on an open line, and whether entries wait for a second laptop.',
  logLabel: 'Names of the machine and its open line set',
  stations: ['office'],
  input: z.strictObject({
    /** Besides the machine's own names and addresses, which are always known. */
    hosts: z.array(readBy(parseHostName)).max(MOST_HOSTS, { error: `Enter at most ${MOST_HOSTS} names.` }),
    /** Whether workers may sign in over a line that is not encrypted. */
    plainStaff: flag,
    /** Whether an entry is answered only once a second laptop has it, for a moment at most. */
    waitsForSecond: flag.default(false),
    reason: text,
  }),
  run({ book, at, worker, line }, { hosts, reason, ...flags }) {
    if (flags.plainStaff && reason.trim() === '') {
      return refuse('missing', 'Enter why the staff must work on an open line: it goes into the log.', 'reason');
    }
    const row = { id: 1, hosts: [...new Set(hosts)].join(' '), ...flags, reason: reason.trim(), worker, at, line };
    book.db.insert(network).values(row).onConflictDoUpdate({ target: network.id, set: row }).run();
    return accept({ hosts: row.hosts, plainStaff: flags.plainStaff });
  },
});

/** Says whether anybody may sell with an expired licence or without one, and to which day dues are paid that are taken here. */
export const intakeRules = defineSaleCommand({
  name: 'intake.rules',
  summary: 'Says whether a sale refuses sellers without a good licence, and to which day its dues are paid.',
  logLabel: 'Rules of the check-in table',
  stations: ['office'],
  untilClosed: true,
  input: z.strictObject({ saleId: rowId, licenceRequired: flag, duesUntil: dateOrNull }),
  run({ book, sale, line }, { saleId, licenceRequired, duesUntil }) {
    if (duesUntil !== null && duesUntil < sale.heldOn) {
      const message = `Dues until ${shortDate(duesUntil)} would run out before the sale of ${shortDate(sale.heldOn)}: enter a later day.`;
      return refuse('malformed', message, 'duesUntil');
    }
    updateRow({ book, line }, saleTable, saleId, { licenceRequired, duesUntil });
    return accept({ saleId, licenceRequired, duesUntil });
  },
});

export const payoutPolicy = defineSaleCommand({
  name: 'payout.policy',
  summary:
    'Says whether sellers wait for their buyers’ money, and after how many days a statement of held furs is due.',
  logLabel: 'Rules of the payout set',
  stations: ['payout', 'office'],
  untilClosed: true,
  input: z.strictObject({
    saleId: rowId,
    sellersWait: flag,
    statementDays: z
      .int({ error: 'Enter the days as a whole number.' })
      .min(0)
      .max(366, { error: 'At most 366 days.' }),
  }),
  run(context, { saleId, sellersWait, statementDays }) {
    updateRow(context, saleTable, saleId, { sellersWait, statementDays });
    return accept({ saleId, sellersWait, statementDays });
  },
});

/**
 * Takes a whole sale into the book from the rows of an exchange folder. Prices off the step, buyers who were not
 * cleared and licences that ran out are no faults here: what happened, happened.
 */
export const saleImport = defineCommand({
  name: 'sale.import',
  summary: 'Imports a whole sale from the rows of an exchange folder, all or nothing.',
  logLabel: 'Sale imported',
  stations: ['office'],
  input: folderInput,
  run(context, input) {
    const raw = folderOfInput(input);
    const folder = checkFolder(raw);
    const refusal = refusalOfProblems([...folder.problems, ...checkAgainstBook(context.book, raw, folder)]);
    if (refusal !== null) return refusal;
    if (folder.sale === undefined) throw new TypeError('a sale without problems was not read');
    return accept({ ...saveFolder(context, folder.sale, folder) });
  },
});
