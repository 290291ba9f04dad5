import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { PayoutFrame } from '#app/(stations)/payout/payout-frame.tsx';
import { WriteChecks } from '#app/(stations)/payout/write-checks.tsx';
import { WriteOff } from '#app/(stations)/payout/write-off.tsx';
import type { PageProps } from '#app/(stations)/station-page.tsx';
import { Moment } from '#app/request/moment.tsx';
import { stationContext, today } from '#app/request/page-context.ts';
import { Mark } from '#app/ui/marks.tsx';
import { PaperLink } from '#app/ui/paper-link.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { type CheckNumbers, checkNumbers } from '#db/payment/check-numbers.ts';
import { type PayoutSellerView, payoutSellerView } from '#db/settlement/payout.ts';
import { paidBy, voidedOf } from '#lib/buyer/buyer.ts';
import { showMoney } from '#lib/money/money.ts';
import { typedInWords } from '#lib/payment/amount-words.ts';
import { isHandedOver } from '#lib/seller/account.ts';
import { lower, payTo } from '#lib/settlement/spelling.ts';
import { Charges, CorrectOne, IssueOne, PayPartner, SetOff } from './seller-actions.tsx';
import { SheetView } from './sheet-view.tsx';

export const metadata: Metadata = { title: 'Settlement sheet' };

export default async function Page({ params, searchParams }: PageProps<'sellerNo'>) {
  const { book, association, sale } = await stationContext(searchParams, ['payout']);
  const { sellerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const sellerNo = Number.parseInt(text, 10);
  const view = payoutSellerView(book, sale, { sellerNo, drawnOn: today(book) });
  if (!view) notFound();
  const { issued, outdated, sheet, correction, older, charges } = view;
  const papers = `/api/papers/sheets?sale=${sale.id}`;
  return (
    <PayoutFrame association={association} sale={sale}>
      {outdated && <CorrectOne saleId={sale.id} sellerNo={sellerNo} says={outdated.words} />}
      {correction && (
        <section className="sheet correction">
          <h1>{correction.title}</h1>
          <ListPaperView list={correction} />
        </section>
      )}
      <SheetView sheet={sheet} />
      <div className="acts">
        {!issued && <IssueOne saleId={sale.id} sellerNo={sellerNo} />}
        <PaperLink href={`${papers}&seller=${sellerNo}`} name={`settlement-sheet-${sale.id}-seller-${sellerNo}.pdf`}>
          {issued ? 'Print the sheet' : 'Print a preview'}
        </PaperLink>
        {older.map((number) => (
          <PaperLink key={number} href={`${papers}&number=${number}`} name={`sheet-${sale.id}-${number}.pdf`}>
            Print sheet {number} as it was
          </PaperLink>
        ))}
      </div>
      <Charges {...{ saleId: sale.id, sellerNo, charges }} open={sale.stage !== 'closed'} />
      {issued && (
        <PaySeller saleId={sale.id} closed={sale.stage === 'closed'} view={view} numbers={checkNumbers(book)} />
      )}
    </PayoutFrame>
  );
}

interface PaySellerProps {
  readonly saleId: number;
  /** After the closing only what is owed since is paid, by check; and what is owed to us is taken in. */
  readonly closed: boolean;
  readonly view: PayoutSellerView;
  readonly numbers: CheckNumbers;
}

/** What each partner has had, what is due now, and how it is paid. */
function PaySeller({ saleId, closed, view, numbers }: PaySellerProps) {
  const { sellerNo, partners, waitsFor, checks, byHand, changed } = view;
  const partnersToPay = partners.filter(({ due }) => due?.direction === 'out').length;
  const waits = waitsFor.length > 0 && !closed;
  const ready = partnersToPay > 0 && !changed && !waits;
  return (
    <section className="sheet" aria-label="Payment">
      <h2>Payment</h2>
      {waits && <p>This number waits for the money of buyer {waitsFor.join(', ')}: take it at the Till first.</p>}
      <ul className="partners">
        {partners.map((partner) => (
          <li key={partner.personId}>
            <strong>{partner.name}</strong>
            {partner.payee && `, to be paid to ${partner.payee}`}: {partner.words}{' '}
            {partner.due === null ? (
              <Mark tone="done">even</Mark>
            ) : (
              <Mark tone="open">
                {typedInWords(partner.due.amount)} {partner.due.direction === 'out' ? 'to pay' : 'to get'}
              </Mark>
            )}
            <PayPartner
              {...{ saleId, sellerNo, personId: partner.personId, name: partner.name, voided: voidedOf(byHand) }}
              due={changed || ((waits || closed) && partner.due?.direction === 'out') ? null : partner.due}
            />
            {partner.due?.direction === 'in' && (
              <WriteOff
                {...{ saleId, who: { sellerNo, personId: partner.personId }, name: partner.name }}
                amount={partner.due.amount}
              />
            )}
            {ready && !closed && <SetOff {...{ saleId, sellerNo, ...partner }} />}
          </li>
        ))}
      </ul>
      {checks.map(({ number, amountCents, voidedOn, ...check }) => (
        <div key={number} className="acts">
          <span>
            Check {number}, {showMoney(amountCents)} to {payTo(check)}
            {voidedOn !== null && ', void'}
          </span>
          <PrintLink href={`/api/papers/payout/check-stubs?sale=${saleId}&check=${number}`}>Stub of {number}</PrintLink>
        </div>
      ))}
      <PaidByHandList byHand={byHand} />
      <WriteChecks saleId={saleId} sellerNo={sellerNo} payable={ready ? 1 : 0} count={partnersToPay} {...numbers} />
    </section>
  );
}

/** What was paid or taken by hand, in its order, each with its receipt; what was voided stays to be read. */
function PaidByHandList({ byHand }: Pick<PayoutSellerView, 'byHand'>) {
  return byHand.map((one) => (
    <div key={one.paymentId} className="acts">
      <span>
        {one.amount} {isHandedOver(one) ? (one.direction === 'out' ? 'paid to' : 'taken from') : 'of'}{' '}
        {one.name || 'this number'}, {lower(paidBy(one))}, <Moment at={one.paidAt} />
      </span>
      {one.method !== 'written_off' && (
        <PrintLink href={`/api/papers/seller-receipt?payment=${one.paymentId}`}>
          {isHandedOver(one) ? 'Receipt' : 'Note'} {one.paymentId}
        </PrintLink>
      )}
      {one.voided !== null && <Mark tone="stop">voided: {one.voided}</Mark>}
      {one.voidable && (
        <FoldedAsk
          {...{ station: 'payout', command: 'payment.void', input: { paymentId: one.paymentId } }}
          asks={{ label: 'Why it is voided' }}
          summary={`Void ${one.amount}`}
          entry={`Void ${one.amount}`}
          act="Void the payment"
        />
      )}
    </div>
  ));
}
