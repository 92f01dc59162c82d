import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchLabels } from '../../../src/core/labels/match-labels.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

function pointsOf(label: string, labels: readonly string[], set: MarkerSet = wands22, count = labels.length) {
  return matchLabels(labels, count, set).points[set.markers.findIndex((marker) => marker.label === label)];
}

const withAlias = (label: string, alias: string): MarkerSet => ({
  ...wands22,
  markers: wands22.markers.map((marker) => (marker.label === label ? { ...marker, aliases: [alias] } : marker)),
});

describe('matchLabels', () => {
  it.each(['R_GT', 'r_gt', 'RGT', 'R GT', 'r-gt.', ' R_GT ', 'Ann:R_GT', 'Study 3:Ann:R_GT'])(
    'takes "%s" for R_GT',
    (label) => {
      expect(pointsOf('R_GT', ['C7', label])).toEqual([1]);
    },
  );

  it.each(['R_GTX', 'GT', 'L_GT', 'R_GT:X', ''])('does not take "%s" for R_GT', (label) => {
    expect(pointsOf('R_GT', [label])).toEqual([]);
  });

  it('knows a laboratory by its own labels', () => {
    const set = withAlias('R_GT', 'HipPoint-R');
    expect(pointsOf('R_GT', ['Ann:hippoint r', 'C7'], set)).toEqual([0]);
  });

  it('reads an alias that holds a colon before it looks for a prefix', () => {
    expect(pointsOf('R_GT', ['Set:Hip'], withAlias('R_GT', 'Set:Hip'))).toEqual([0]);
  });

  it('tells every point that bears a label', () => {
    expect(pointsOf('L_LE', ['L_LE', 'Ann:L_LE', 'Bob:l le'])).toEqual([0, 1, 2]);
  });

  it('lets labels beyond the points stand for nothing', () => {
    expect(pointsOf('L_LE', ['C7', 'L_LE'], wands22, 1)).toEqual([]);
  });

  it('never loses a label of the set among hostile ones, and never takes one of those', () => {
    const hostile = fc.oneof(
      fc.constantFrom('__proto__', 'constructor', 'toString', 'hasOwnProperty', ':', '\u0000'),
      fc.string(),
    );
    const known = new Set(wands22.markers.map((marker) => marker.label.toLowerCase().replace('_', '')));
    fc.assert(
      fc.property(fc.array(hostile, { maxLength: 30 }), (junk) => {
        const clean = junk.filter((label) => {
          const folded = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
          return !known.has(folded(label)) && !known.has(folded(label.slice(label.lastIndexOf(':') + 1)));
        });
        const { points } = matchLabels([...clean, 'S1'], clean.length + 1, wands22);
        expect(points.flat()).toEqual([clean.length]);
      }),
    );
  });
});
