import { describe, expect, it } from 'vitest';
import { findChoices, findWords } from '#lib/result/search.ts';

const GOODS = ['Muskrat', 'Red fox', 'Gray fox', 'Long-tailed weasel', 'Raccoon', 'Marten', 'Mink'];
const find = (typed: string) => findChoices(typed, GOODS, (name) => name);

describe('goods by a few letters', () => {
  it.each([
    ['ra', ['Raccoon', 'Muskrat', 'Gray fox']],
    ['mu', ['Muskrat']],
    ['FOX', ['Red fox', 'Gray fox']],
    ['tail', ['Long-tailed weasel']],
    ['m', ['Muskrat', 'Marten', 'Mink']],
    ['zz', []],
  ])('%s', (typed, found) => {
    expect(find(typed)).toEqual(found);
  });

  it('keeps its own order where nothing is typed, and knows letters without their marks', () => {
    expect(find('')).toEqual(GOODS);
    expect(findChoices('lac', ['Łącka'], (name) => name)).toEqual(['Łącka']);
  });
});

describe('words of a short list', () => {
  it.each([
    ['i', ['I', 'II', 'III'], ['I', 'II', 'III']],
    ['ii', ['I', 'II', 'III'], ['II', 'III']],
    ['2', ['I', 'II', 'III'], ['II']],
    ['4', ['I', 'II', 'III'], []],
    ['6', ['under 50', '60 to 64', '65 and up'], ['60 to 64', '65 and up']],
    ['l', ['S', 'M', 'L', 'XL'], ['L']],
  ])('%s among %j', (typed, words, found) => {
    expect(findWords(typed, words)).toEqual(found);
  });
});
