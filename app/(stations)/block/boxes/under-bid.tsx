'use client';

import { useState } from 'react';
import { focusNext } from '#app/(stations)/block/key-buffer.ts';
import { errorAt, readBuyerNo } from '#app/(stations)/block/question.tsx';
import { TextField } from '#app/ui/text-field.tsx';
import { readMoney } from '#lib/money/money.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { Box, type BoxContext } from './box.tsx';

/** Notes who bid last before the buyer of a lot, for the case that the buyer does not take it. It changes nothing else. */
export function UnderBid({ context: { view, model, submit }, close }: BoxContext) {
  const [said, setSaid] = useState({ lotNo: model.last[0]?.lotNo ?? '', price: '', buyer: '' });
  const [refusal, setRefusal] = useState<Refusal>();
  const enter = () => {
    if (focusNext()) return;
    const price = readMoney(said.price, { allowZero: false });
    if (!price.ok) return setRefusal({ ...price, field: 'price' });
    const buyerNo = readBuyerNo(said.buyer);
    if (!buyerNo || !view.buyers.some((one) => one.buyerNo === buyerNo)) return setRefusal(NOBODY);
    const { lotNo } = said;
    const input = { saleId: view.saleId, lotNo, buyerNo, kind: 'under', price: said.price } as const;
    submit({ command: 'bid.leave', input, label: `The under-bid on lot ${lotNo}` });
    close();
  };
  const field = (name: keyof typeof said, refusedAs: string = name) => ({
    value: said[name],
    error: errorAt(refusal, refusedAs),
    onText: (text: string) => {
      setSaid({ ...said, [name]: text });
      setRefusal(undefined);
    },
  });
  return (
    <Box label="Note the under-bid" enter={enter} close={close}>
      <TextField {...field('price')} label="Under-bid" autoFocus inputMode="decimal" />
      <TextField {...field('buyer', 'buyerNo')} label="Buyer number" inputMode="numeric" />
      <TextField {...field('lotNo')} label="Lot number" inputMode="numeric" />
    </Box>
  );
}

const NOBODY = refuse('unknown', 'Nobody has this buyer number.', 'buyerNo');
