/**
 * What the compiler says of commands. The lines under `@ts-expect-error` do not pass it, and tsc reads this file in
 * the ordinary check: where such a line passes after all, because a type has become looser, tsc fails here. Nothing of
 * this is given to a book.
 */
import { describe, expect, expectTypeOf, it } from 'vitest';
import type { useGive } from '#app/ui/use-give.ts';
import type { submit } from '#db/book/door.ts';
import { allCommands, type Commands, type InputOf, type ValueOf } from '#db/commands.ts';
import { RANDOM_ACTS } from '#tests/support/any-acts.ts';
import type { Hall } from '#tests/support/hall.ts';

type Give = ReturnType<typeof useGive>['give'];
const payment = { saleId: 1, direction: 'in', buyerNo: 10, method: 'cash', amount: '5.00' } as const;

/** Read by the compiler only. */
async function neverRun(give: Give, { must }: Pick<Hall, 'must'>, door: typeof submit): Promise<void> {
  const reply = await give('payment.record', payment, 'Payment');
  if (reply.ok) expectTypeOf(reply.value.paymentId).toEqualTypeOf<number>();
  const book = {} as Parameters<typeof door>[0];
  const by = { worker: 'Ada', station: 'till', at: '', key: '' } as const;
  // @ts-expect-error a misspelled command, in the browser
  await give('paymnt.record', payment, 'Payment');
  // @ts-expect-error a misspelled command, in a test
  must('paymnt.record', payment);
  // @ts-expect-error a misspelled command, at the door
  door(book, { ...by, command: 'paymnt.record', input: payment });
  // @ts-expect-error a field that the command does not have, in the browser
  await give('payment.record', { ...payment, salesId: 'x' }, 'Payment');
  // @ts-expect-error a field that is missing
  await give('payment.record', { direction: 'in', method: 'cash', amount: '5.00' }, 'Payment');
  // @ts-expect-error a field of another type
  must('payment.record', { ...payment, buyerNo: '10' });
  // @ts-expect-error a word that the field does not know
  door(book, { ...by, command: 'payment.record', input: { ...payment, method: 'fur' } });
  // @ts-expect-error a field that the reply does not have
  if (reply.ok) reply.value.invoiceId;
  // @ts-expect-error a field of the reply has another type
  const paymentId: string = must('payment.record', payment).paymentId;
  void paymentId;
}

describe('the types of the commands', () => {
  it('are asked by a function that nobody calls', () => {
    expectTypeOf(neverRun).returns.resolves.toBeVoid();
  });

  it('follow from the schema and from what a command answers', () => {
    expectTypeOf<InputOf<'lot.move'>>().toEqualTypeOf<{ readonly lotId: number; readonly sellerNo: number }>();
    expectTypeOf<ValueOf<'drawer.void'>>().toEqualTypeOf<{ entryId: number; voidsId: number }>();
    expectTypeOf<keyof Commands>().not.toEqualTypeOf<string>();
  });

  it('know each command that there is, and no other', () => {
    expect(Object.keys(RANDOM_ACTS).sort()).toEqual(
      allCommands()
        .map(({ name }) => name)
        .sort(),
    );
  });
});
