import { describe, expect, it } from 'vitest';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a virtual point of a marker that is not there',
    ({ point }) => {
      point('midAsis').of[0] = 'R_ASIZ';
    },
    '/virtualPoints/midAsis/of/0',
    ' (virtual point "midAsis"): found "R_ASIZ", expected a marker or virtual point written above it; perhaps "R_ASIS" is meant',
  ],
  [
    'a virtual point of one below it',
    ({ set }) => {
      set.virtualPoints.reverse();
    },
    '/virtualPoints/0/of/0',
    ' (virtual point "kneeMiddle"): found "@kneeCentre", which stands for "R_kneeCentre", expected a marker or virtual point written above it; it is not written before this, so move it up',
  ],
  [
    'a virtual point called like a marker',
    ({ point }) => {
      point('midAsis').name = 'S1';
    },
    '/virtualPoints/midAsis/name',
    ': found "S1", which another point is called already; choose another name',
  ],
  [
    'a line without length',
    ({ set }) => {
      set.virtualPoints.push({ name: 'x', construct: 'along-line', from: 'S1', to: 'S1', fraction: 1 });
    },
    '/virtualPoints/last/to',
    ' (virtual point "x"): found "S1" as "from" and as "to", expected two different points; correct one',
  ],
  [
    'a hip centre with one ASIS twice',
    ({ point }) => {
      point('hipCentre').leftAsis = 'R_ASIS';
    },
    '/virtualPoints/hipCentre/leftAsis',
    ' (virtual point "hipCentre"): found "R_ASIS" as "rightAsis" and as "leftAsis", expected two different points; correct one',
  ],
  [
    'a view from a base below it',
    ({ set }) => {
      set.views.reverse();
    },
    '/views/0/base',
    ' (view "malleolarAxis"): found "@.kneeAxis", which stands for "kneeAxis.right", expected a view written above it; it is not written before this, so move it up',
  ],
  [
    'a view from a base that is not there',
    ({ set }) => {
      set.views[1].base = '@.kneeAxes';
    },
    '/views/malleolarAxis/base',
    ' (view "malleolarAxis"): found "@.kneeAxes", which stands for "kneeAxes.right", expected a view written above it; perhaps "@.kneeAxis" is meant',
  ],
  [
    'a view from a base of one side',
    ({ set }) => {
      set.views[1].base = 'kneeAxis.right';
    },
    '/views/malleolarAxis/base',
    ' (view "malleolarAxis"): found "kneeAxis.right", which is not on the left; write it with "@." and without its side',
  ],
  [
    'a view between one point',
    ({ set }) => {
      set.views[0].to = '@ME';
    },
    '/views/kneeAxis/to',
    ' (view "kneeAxis"): found "@ME" as "from" and as "to", expected two different points; correct one',
  ],
  [
    'a long axis of a point that is not there',
    ({ set }) => {
      set.segments[2].longAxis.to = '@hip';
    },
    '/segments/thigh/longAxis/to',
    ' (segment "thigh"): found "@hip", which stands for "R_hip", expected a marker or virtual point of this set; check its spelling, or add it',
  ],
  [
    'an outward view that is not there',
    ({ set }) => {
      set.segments[2].outward = '@.knee';
    },
    '/segments/thigh/outward',
    ' (segment "thigh"): found "@.knee", which stands for "knee.right", expected a view of this set; check its spelling, or add it',
  ],
  [
    'a side where there is none',
    ({ point }) => {
      point('midAsis').of[0] = '@ASIS';
    },
    '/virtualPoints/midAsis/of/0',
    ' (virtual point "midAsis"): found "@ASIS", expected a marker or virtual point written above it; @ stands for a side, and this entry has none: write "R_ASIS" or "L_ASIS", or make it "sided": true',
  ],
  [
    'a name without the side it has',
    ({ point }) => {
      point('midAsis').of[0] = 'ASIS';
    },
    '/virtualPoints/midAsis/of/0',
    ' (virtual point "midAsis"): found "ASIS", expected a marker or virtual point written above it; it has two sides: write "@ASIS" where "sided" is true, else "R_ASIS" or "L_ASIS"',
  ],
  [
    'an alias in place of the label',
    ({ marker, point }) => {
      marker('S1').aliases = ['BACK'];
      point('pelvisMiddle').of[1] = 'BACK';
    },
    '/virtualPoints/pelvisMiddle/of/1',
    ' (virtual point "pelvisMiddle"): found "BACK", expected a marker or virtual point written above it; that is an alias of "S1", and rules go by the label: write that',
  ],
];

describe('parseMarkerSet refuses points, views and segments of what is not there', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
