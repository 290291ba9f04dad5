import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonical, canonicalLine, EMPTY_HEAD, hashOfLine, type LogRow } from '#db/book/log.ts';
import { checkChain } from '#db/verify/chain.ts';
import { openHall } from '#tests/support/hall.ts';

describe('the canonical form', () => {
  // RFC 8785, section 3.2.2 and 3.2.3: the sample input and its serialization.
  it('is that of RFC 8785', () => {
    const sample = {
      numbers: [Number('333333333.33333329'), 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
      string: "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\u0022\u002f",
      literals: [null, true, false],
    };
    const text =
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
    expect(canonical(sample)).toBe(text);
  });

  // RFC 8785, section 3.2.3: keys in the order of their UTF-16 code units.
  it('sorts keys by code units', () => {
    const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude00', '\u0080', '\u00f6'];
    const sorted = ['\r', '1', '\u0080', '\u00f6', '\u20ac', '\ud83d\ude00', '\ufb33'];
    const found = canonical(Object.fromEntries(keys.map((key) => [key, 0])));
    expect(Object.keys(JSON.parse(found))).toEqual(['1', ...sorted.filter((key) => key !== '1')]);
    expect(found).toBe(`{${sorted.map((key) => `${JSON.stringify(key)}:0`).join(',')}}`);
  });

  // Source: the npm library canonicalize, by one of the authors of RFC 8785 (from memory).
  it('is the text that the library gives it', () => {
    const named = fc.string({ unit: 'binary', maxLength: 3 });
    const values = fc.letrec((tie) => ({
      any: fc.oneof(
        { maxDepth: 3 },
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        named,
        fc.boolean(),
        fc.constant(null),
        fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(named, tie('any'), { maxKeys: 5 }),
      ),
    }));
    fc.assert(
      fc.property(values.any, (value) => {
        expect(canonical(value)).toBe(canonicalize(value));
      }),
    );
    for (const value of [{ 10: 1, 2: 2, a: 3 }, [-0, 1e21], { a: undefined }, [undefined], new Date(0), '\\ud800']) {
      expect(canonical(value)).toBe(canonicalize(value));
    }
    for (const value of [Number.NaN, [Number.POSITIVE_INFINITY], '\ud800', { '\udfff': 1 }]) {
      expect(() => canonical(value)).toThrow();
    }
  });

  it('comes back as the same value', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonical(value);
        expect(canonical(JSON.parse(text))).toBe(text);
      }),
    );
  });
});

describe('a line', () => {
  const unicode = fc.string({ unit: 'binary', maxLength: 12 });

  it('has the canonical form that the library gives it, which judges every value by itself', () => {
    const line = { at: unicode, worker: unicode, station: unicode, command: unicode, key: unicode, result: unicode };
    const input = fc.jsonValue().map(canonical);
    fc.assert(
      fc.property(fc.record({ ...line, input, seq: fc.nat() }), (row) => {
        expect(canonicalLine(row)).toBe(canonical(row));
      }),
    );
  });

  it.each(['\ud800', 'a\udfffb', '\udc00\ud800', '\\\ud83d'])(
    'has no canonical form where its text is no Unicode',
    (worker) => {
      const row = { seq: 1, at: '', worker, station: '', command: '', key: '', input: '{}', result: '{}' };
      expect(() => canonical(row)).toThrow('surrogate');
      expect(() => canonicalLine(row)).toThrow('not Unicode');
    },
  );

  it('may speak of half a surrogate pair in letters, which is Unicode', () => {
    const row = {
      seq: 1,
      at: '\\ud800',
      worker: '\\\\udfff',
      station: '',
      command: '',
      key: '',
      input: '',
      result: '',
    };
    expect(canonicalLine(row)).toBe(canonical(row));
  });

  const lines = () => openHall().book.sqlite.prepare('SELECT *, prev_hash AS prevHash FROM log ORDER BY seq').all();

  it('is sealed with SHA-256 over the hash before it and its own canonical form', () => {
    let before = '0'.repeat(64);
    for (const row of lines() as LogRow[]) {
      const { at, command, input, key, result, seq, station, worker } = row;
      const text = JSON.stringify({ at, command, input, key, result, seq, station, worker });
      expect(row.hash).toBe(createHash('sha256').update(`${before}${text}`, 'utf8').digest('hex'));
      before = row.hash;
    }
  });

  it.each(['at', 'worker', 'station', 'command', 'key', 'input', 'result', 'seq', 'prevHash'] as const)(
    'has another hash when its %s is another',
    (name) => {
      const line = { seq: 7, at: 'a', worker: 'b', station: 'c', command: 'd', key: 'e', input: 'f', result: 'g' };
      const sealed = { ...line, prevHash: EMPTY_HEAD.hash };
      const other = { ...sealed, [name]: name === 'seq' ? 8 : 'x' };
      expect(hashOfLine(other)).not.toBe(hashOfLine(sealed));
    },
  );
});

describe('the chain', () => {
  it('is good from its first line or from any head that was good before', () => {
    const { book, must } = openHall();
    const first = checkChain(book.sqlite);
    expect(first).toMatchObject({ ok: true, firstBadLine: null });
    must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
    const rest = checkChain(book.sqlite, first.head);
    expect(rest).toMatchObject({ ok: true, lines: 1, head: { seq: first.head.seq + 1 } });
  });

  it('is not good behind a head of another book', () => {
    const { book } = openHall();
    expect(checkChain(book.sqlite, { seq: 3, hash: 'f'.repeat(64) })).toMatchObject({ ok: false, firstBadLine: 4 });
  });
});
