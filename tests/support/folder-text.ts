/** The files of an exchange folder as text: written apart from the program's own writer. */

export type FolderRow = Readonly<Record<string, string>>;

/** The columns of the files that go in and out again, in the order of writing. */
export const COLUMNS = {
  'goods.csv': 'goods,name,scientific_name,by,export_tag,tag_species_code,season_limit',
  'people.csv':
    'person_id,name,street,city,region,postcode,phone,email,member_no,member_until,licence_no,licence_region,licence_expires',
  'sellers.csv': 'seller_no,person_id,parts',
  'buyers.csv': 'buyer_no,person_id,licence_no,tax_exempt,exempt_no,cleared',
  'lots.csv': 'lot_no,seller_no,goods,by,count,weight,size,grade,section,minimum,donated,note',
  'tags.csv': 'lot_no,tag',
  'bids.csv': 'lot_no,buyer_no,price,received_at',
  'results.csv': 'lot_no,outcome,price,buyer_no',
  'charges.csv': 'seller_no,kind,amount,how,note',
  'payments.csv': 'direction,buyer_no,seller_no,person_id,method,amount,reference,paid_at',
} as const;

export type CsvFile = keyof typeof COLUMNS;
export const CSV_FILES = Object.keys(COLUMNS) as CsvFile[];

export function columnsOf(file: CsvFile): string[] {
  return COLUMNS[file].split(',');
}

/** One CSV text: every cell in quotes where `quoteAll`, else only where it must be. */
export function csvOf(columns: readonly string[], rows: readonly FolderRow[], newline = '\r\n'): string {
  const cell = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  const lines = [columns, ...rows.map((row) => columns.map((column) => row[column] ?? ''))];
  return lines.map((cells) => `${cells.map(cell).join(',')}${newline}`).join('');
}
