/** The files of an exchange folder that are worked out and only written: on reading a folder they are passed over. */
export const OUT_FILES = [
  'settlements.csv',
  'settlement_shares.csv',
  'settlement_lines.csv',
  'invoices.csv',
  'price_table.csv',
  'tag_register.csv',
  'journal.csv',
  'journal.ledger',
] as const;

export type OutFile = (typeof OUT_FILES)[number];
