import { describe, expect, it } from 'vitest';
import { type Change, parseChanged, refusalOf } from './changed-set.ts';

/** What is planted in the comparisons of a shipped set, the place that is named, and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'one name for two',
    ({ set }) => {
      set.comparisons[1].id = 'pelvis-width';
    },
    '/comparisons/1/id',
    'found "pelvis-width" twice; choose another name',
  ],
  [
    'a measurement that the kind does not foretell',
    ({ set }) => {
      set.comparisons[0].measure = 'legLength';
    },
    '/comparisons/0/measure',
    'found "legLength", which "between-markers" does not foretell; it foretells "pelvisWidth", "kneeDiameter", "ankleDiameter"',
  ],
  [
    'a measurement of each side without a side',
    ({ set }) => {
      set.comparisons[2].sided = false;
      set.comparisons[2].markers = ['R_LE', 'R_ME'];
    },
    '/comparisons/2',
    'found no side, but this is measured on each; make it "sided": true',
  ],
  [
    'a measurement of the whole person on both sides',
    ({ set }) => {
      set.comparisons[0].sided = true;
    },
    '/comparisons/0',
    'found both sides, but this measure has none; take "sided" out',
  ],
  [
    'a marker too few',
    ({ set }) => {
      set.comparisons[4].markers = ['@ASIS', '@LE'];
    },
    '/comparisons/4/markers',
    'found 2 markers, expected 3 for "along-leg"',
  ],
  [
    'one marker at both ends',
    ({ set }) => {
      set.comparisons[2].markers = ['@LE', '@LE'];
    },
    '/comparisons/2/markers',
    'found "@LE" twice, expected each once; take one out',
  ],
  [
    'a marker that is not there',
    ({ set }) => {
      set.comparisons[0].markers = ['R_ASIS', 'L_ASISS'];
    },
    '/comparisons/0/markers/1',
    'found "L_ASISS", expected a marker of this set; perhaps "L_ASIS" is meant',
  ],
  [
    'a stature by no published height',
    ({ set }) => {
      delete set.comparisons[5].height;
    },
    '/comparisons/5',
    'found no "height", expected "cervicale" or "trochanterion"; add it',
  ],
  [
    'a height where none is asked for',
    ({ set }) => {
      set.comparisons[0].height = 'cervicale';
    },
    '/comparisons/0',
    'found a "height", which only "stature-from-height" has; take it out',
  ],
];

describe('comparisons of hand measurements', () => {
  it.each(faults)('are refused for %s', (_, plant, pointer, trouble) => {
    const refusal = refusalOf(plant)!;
    expect(refusal.pointer).toBe(pointer);
    expect(refusal.message.endsWith(`: ${trouble}.`), refusal.message).toBe(true);
  });

  it('may be left out', () => {
    const set = parseChanged(({ set }) => {
      delete set.comparisons;
    });
    expect(set.comparisons).toEqual([]);
  });
});
