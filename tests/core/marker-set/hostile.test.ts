import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedText, type Loose, refusalOfText, shippedText } from './changed-set.ts';

/** A refusal as it may be printed: place, one sentence, nothing that a terminal obeys, not too long. */
function expectPrintable(refusal: { pointer: string; message: string } | null): void {
  if (refusal === null) return;
  expect(refusal.pointer).toMatch(/^\//);
  expect(refusal.pointer).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
  expect(refusal.message).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
  expect(refusal.message.length).toBeLessThan(400);
  expect(refusal.message).toMatch(/^marker set[,:] .*[^.]\.$/u);
  // What is quoted from the file may hold anything; around it stands one sentence.
  const spoken = refusal.message.replace(refusal.pointer, '');
  expect(spoken.replaceAll(/"(?:[^"\\]|\\.)*"/g, '"').replaceAll('1.0.0', '')).not.toMatch(/[.?!] /);
}

const oddText = fc.oneof(
  fc.constantFrom('__proto__', 'constructor', '@', '@.', '@GT', 'R_GT', '\u202e', '\u001b[2J', '{side}', '', '. '),
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.integer({ min: 60, max: 10_000 }).map((length) => 'x'.repeat(length)),
);
const oddValue = fc.oneof(
  oddText,
  fc.double(),
  fc.constantFrom(null, true, [], {}, 1e300, -1, ['R_GT', 'R_GT'], { from: 'R_GT', to: 'R_GT' }),
  fc.jsonValue({ maxDepth: 3 }),
);

/** Steps down to any place of the set, by picks that are taken modulo what is there. */
function change(set: Loose, picks: readonly number[], how: number, value: unknown, name: string): void {
  let holder = set;
  for (const pick of picks) {
    const keys = Object.keys(holder);
    const key = keys[pick % keys.length]!;
    const next = holder[key];
    if (next !== null && typeof next === 'object' && Object.keys(next).length > 0) {
      holder = next;
      continue;
    }
    if (how === 0) holder[key] = value;
    else if (how === 1) Array.isArray(holder) ? holder.splice(Number(key), 1) : delete holder[key];
    else if (how === 2) Array.isArray(holder) ? holder.push(value) : define(holder, name, value);
    else Array.isArray(holder) ? holder.push(holder[0]) : define(holder, name, next);
    return;
  }
}

/** Defines, so that a field called `__proto__` is one. */
function define(holder: object, name: string, value: unknown): void {
  Object.defineProperty(holder, name, { value, enumerable: true, configurable: true, writable: true });
}

describe('parseMarkerSet on hostile files', () => {
  it('returns a set, or refuses in one printable sentence, whatever is changed in a set', () => {
    const picks = fc.array(fc.nat(), { minLength: 6, maxLength: 6 });
    let refused = 0;
    let taken = 0;
    fc.assert(
      fc.property(picks, fc.nat({ max: 3 }), oddValue, oddText, (steps, how, value, name) => {
        const refusal = refusalOfText(changedText(({ set }) => change(set, steps, how, value, name)));
        expectPrintable(refusal);
        refusal === null ? taken++ : refused++;
      }),
      { numRuns: 400 },
    );
    // Both outcomes have to be reached, or the property says nothing.
    expect(refused).toBeGreaterThan(50);
    expect(taken).toBeGreaterThan(0);
  });

  it('refuses in one printable sentence what is no set at all', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          oddText,
          oddValue.map((value) => JSON.stringify(value) ?? ''),
        ),
        (text) => {
          const refusal = refusalOfText(text);
          expect(refusal).not.toBeNull();
          expectPrintable(refusal);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('survives a file that is cut or overwritten anywhere', () => {
    const text = shippedText();
    fc.assert(
      fc.property(fc.nat({ max: text.length }), fc.nat({ max: 5 }), oddText, (at, cut, put) => {
        expectPrintable(refusalOfText(text.slice(0, at) + put + text.slice(at + cut)));
        expectPrintable(refusalOfText(text.slice(0, at)));
      }),
      { numRuns: 150 },
    );
  });

  it.each([
    ['[', 300_000],
    ['{"a":', 150_000],
    ['{"markers":[', 60_000],
  ])('survives %s, %i times', (opening, times) => {
    const refusal = refusalOfText(opening.repeat(times));
    expect(refusal?.message).toContain('found more than 64 levels inside each other');
    expectPrintable(refusal);
  });
});
