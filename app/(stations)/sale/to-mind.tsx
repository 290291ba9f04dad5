import { Ahead } from '#app/backups/ahead.tsx';
import { backupsAhead } from '#app/backups/view.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { hasWorkers } from '#db/queries/workers.ts';
import { FirstWorker, NoTimeZone } from './setting-up.tsx';

interface ToMindProps {
  readonly book: Book;
  readonly sale: SaleRow;
}

/** What is wrong with the book itself or still missing from it, before anything is entered. */
export function ToMind({ book, sale }: ToMindProps) {
  return (
    <>
      <Ahead ahead={backupsAhead(book)} />
      {theAssociation(book)?.timeZone === '' && <NoTimeZone />}
      {sale.stage === 'planned' && !hasWorkers(book) && <FirstWorker />}
    </>
  );
}
