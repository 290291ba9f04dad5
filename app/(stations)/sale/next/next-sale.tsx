'use client';

import { useRouter } from 'next/navigation';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { shortDate } from '#lib/date/date.ts';
import type { Sale } from '#lib/sale/facts.ts';

interface NextSaleProps {
  readonly likeSaleId: number;
  readonly like: Pick<Sale, 'name' | 'heldOn' | 'venue' | 'season'>;
  readonly goods: number;
}

const FIELDS = [
  { name: 'name', label: 'Name of the sale', hint: 'It may keep its name from year to year.' },
  { name: 'held_on', label: 'Held on', hint: 'Such as Feb 27, 2027.' },
  { name: 'venue', label: 'Venue', hint: '' },
  { name: 'season', label: 'Season', hint: 'As 2026-27.' },
  { name: 'season_closes_on', label: 'Season closes on', hint: 'May be left empty.' },
] as const;

/** Next year in one act: everything but the day is taken from the sale at hand, which stays as it is. */
export function NextSale({ likeSaleId, like, goods }: NextSaleProps) {
  const router = useRouter();
  const { give, busy, refusal, errorOf } = useGive('office');
  const { texts, field } = useTexts(
    { name: like.name, held_on: '', venue: like.venue, season: '', season_closes_on: '' },
    errorOf,
  );
  const plan = async () => {
    const answer = await give('sale.next', { likeSaleId, ...texts }, 'Next sale');
    if (answer.ok) router.push(`/?sale=${answer.value.saleId}`);
  };
  return (
    <Form className="sheet sale-form" onEntered={plan}>
      <h1>A sale like this one</h1>
      <p>
        It takes the terms and the {goods} goods of {like.name}, {shortDate(like.heldOn)}, and how it is run. Sellers
        and buyers begin anew. Look through the terms and the goods afterwards: limits and tag rules change every year.
      </p>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        {FIELDS.map(({ name, ...words }) => (
          <TextField key={name} {...words} {...field(name)} />
        ))}
      </div>
      <SubmitActs label="Plan it" main disabled={busy} />
    </Form>
  );
}
