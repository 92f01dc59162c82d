import { describe, expect, it } from 'vitest';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'one marker at both ends of the levelled line',
    ({ set }) => {
      set.bodyAxes.left = 'R_ASIS';
    },
    '/bodyAxes/left',
    ': found "R_ASIS" as "right" and as "left", expected two different points; correct one',
  ],
  [
    'the levelled line the wrong way round',
    ({ set }) => {
      Object.assign(set.bodyAxes, { right: 'L_ASIS', left: 'R_ASIS' });
    },
    '/bodyAxes/right',
    ': found "L_ASIS", which is on the other side; exchange "right" and "left"',
  ],
  [
    'a low marker that is not there',
    ({ set }) => {
      set.bodyAxes.low[0] = 'HEEL';
    },
    '/bodyAxes/low/0',
    ': found "HEEL", expected a marker of this set; it has two sides: write "@HEEL" where "sided" is true, else "R_HEEL" or "L_HEEL"',
  ],
  [
    'a marker that is low and high',
    ({ set }) => {
      set.bodyAxes.high.push('R_HEEL');
    },
    '/bodyAxes/high/3',
    ': found "R_HEEL" in "low" and in "high"; take it out of one',
  ],
  [
    'one side alone in a line that tells forward',
    ({ set }) => {
      set.bodyAxes.forward[0].to = ['R_ASIS'];
    },
    '/bodyAxes/forward/0/to/0',
    ': found "R_ASIS" without "L_ASIS", so that exchanged sides would turn forward; name both, or neither',
  ],
  [
    'a line forward that ends where it begins',
    ({ set }) => {
      Object.assign(set.bodyAxes.forward[0], { from: ['S1'], to: ['S1'] });
    },
    '/bodyAxes/forward/0/to/0',
    ': found "S1" in "from" and in "to"; take it out of one',
  ],
  [
    'restless below quiet',
    ({ set }) => {
      set.stillness.restlessMm = 1;
    },
    '/stillness/quietMm',
    ': found 1.5, expected less than "restlessMm", which is 1; correct one',
  ],
  [
    'a swapped pair that is not there',
    ({ set }) => {
      set.oftenSwapped[0] = ['@TW', '@GTR'];
    },
    '/oftenSwapped/0/1',
    ': found "@GTR", which stands for "R_GTR", expected a marker of this set; perhaps "@GT" is meant',
  ],
  [
    'a placement that is not there',
    ({ set }) => {
      set.placementOrder[0] = '@MET';
    },
    '/placementOrder/0',
    ': found "@MET", which stands for "R_MET", expected a marker of this set; perhaps "@ME" is meant',
  ],
  [
    'an order of one marker',
    ({ set }) => {
      set.orders[0].second = '@GT';
    },
    '/orders/0/second',
    ' (order of "@GT"): found "@GT" as "first" and as "second", expected two different points; correct one',
  ],
  [
    'an order that turns another round',
    ({ set }) => {
      set.orders.push({ sided: true, first: '@TW', second: '@GT', axis: 'up', byMm: 0 });
    },
    '/orders/last',
    ' (order of "@TW"): found "R_TW" more than 0 mm beyond "R_GT" (up), which cannot hold together with the orders above it; correct one',
  ],
  [
    'orders that go round in a circle',
    ({ set }) => {
      set.orders.push({ sided: true, first: '@LM', second: '@GT', axis: 'up', byMm: -70 });
    },
    '/orders/last',
    ' (order of "@LM"): found "R_LM" more than -70 mm beyond "R_GT" (up), which cannot hold together with the orders above it; correct one',
  ],
  [
    'an order outward against another',
    ({ set }) => {
      set.orders.push({ sided: true, first: '@ME', second: '@LE', axis: 'outward', byMm: -10 });
    },
    '/orders/last',
    ' (order of "@ME"): found "R_ME" more than -10 mm beyond "R_LE" (outward), which cannot hold together with the orders above it; correct one',
  ],
];

describe('parseMarkerSet refuses body axes, stillness, swaps and orders that cannot hold', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
