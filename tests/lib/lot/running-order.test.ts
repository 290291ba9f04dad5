import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import {
  inRunningOrder,
  placeBehind,
  placeInFront,
  placesWithMoved,
  RUNNING_ORDERS,
  type Runner,
} from '#lib/lot/running-order.ts';

const runner = (no: string, sellerNo: number, goodsName: string): Runner => ({
  ...{ lotNo: lotNo(no), sellerNo, goodsName, place: null },
});
const LOTS = [
  runner('12A', 1, 'Raccoon'),
  runner('2', 3, 'Beaver'),
  runner('12', 2, 'Muskrat'),
  runner('30', 1, 'Beaver'),
];
const numbers = (lots: readonly Runner[]) => lots.map((lot) => lot.lotNo);

const anyLots = fc.uniqueArray(
  fc.record({
    lotNo: fc.integer({ min: 1, max: 500 }).map((number) => lotNo(String(number))),
    sellerNo: fc.integer({ min: 1, max: 9 }),
    goodsName: fc.constantFrom('Beaver', 'Muskrat', 'Raccoon'),
    place: fc.option(fc.integer({ min: -9, max: 9 })),
  }),
  { selector: (lot) => lot.lotNo, minLength: 1 },
);
const anyOrder = fc.constantFrom(...RUNNING_ORDERS);

describe('the running order', () => {
  it.each([
    ['lot', ['2', '12', '12A', '30']],
    ['seller', ['12A', '30', '12', '2']],
    ['goods', ['2', '30', '12', '12A']],
    ['hand', ['2', '12', '12A', '30']],
  ] as const)('by %s', (order, ought) => {
    expect(numbers(inRunningOrder(order, LOTS))).toEqual(ought);
  });

  it('keeps every lot once, whatever the places', () => {
    fc.assert(
      fc.property(anyOrder, anyLots, (order, lots) => {
        expect(numbers(inRunningOrder(order, lots)).sort()).toEqual(numbers(lots).sort());
      }),
    );
  });

  it('puts a lot first with the place in front, and last with the place behind', () => {
    fc.assert(
      fc.property(anyOrder, anyLots, fc.nat(), (order, lots, pick) => {
        const moved = lots[pick % lots.length];
        const placed = (place: number) =>
          inRunningOrder(
            order,
            lots.map((lot) => (lot === moved ? { ...lot, place } : lot)),
          );
        expect(placed(placeInFront(lots)).at(0)?.lotNo).toBe(moved?.lotNo);
        expect(placed(placeBehind(lots)).at(-1)?.lotNo).toBe(moved?.lotNo);
      }),
    );
  });

  it('moves one lot before another by hand and leaves the others in their order', () => {
    fc.assert(
      fc.property(anyOrder, anyLots, fc.tuple(fc.nat(), fc.nat()), (order, lots, [one, other]) => {
        const before = inRunningOrder(order, lots);
        const [moved, target] = [before[one % before.length], before[other % before.length]];
        if (!moved || !target || moved === target) return;
        const places = placesWithMoved(before, moved, target);
        const after = inRunningOrder(
          'hand',
          before.map((lot) => ({ ...lot, place: places.get(lot) ?? null })),
        );
        expect(after.findIndex(({ lotNo: no }) => no === moved.lotNo) + 1).toBe(
          after.findIndex(({ lotNo: no }) => no === target.lotNo),
        );
        const others = (list: readonly Runner[]) => numbers(list).filter((no) => no !== moved.lotNo);
        expect(others(after)).toEqual(others(before));
      }),
    );
  });
});
