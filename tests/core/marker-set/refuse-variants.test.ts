import { describe, expect, it } from 'vitest';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a suspended rule that is not there',
    ({ set }) => {
      set.variants[0].suspends[0].rule = 'heels-alik';
    },
    '/variants/foot-in-supination/suspends/0/rule',
    ' (variant "foot-in-supination"): found "heels-alik", expected a rule of this set as it is written, without its side; perhaps "heels-alike" is meant',
  ],
  [
    'a suspended rule with its side',
    ({ set }) => {
      set.variants[0].suspends[0].rule = 'ankle-above-forefoot.right';
    },
    '/variants/foot-in-supination/suspends/0/rule',
    ' (variant "foot-in-supination"): found "ankle-above-forefoot.right", expected a rule of this set as it is written, without its side; perhaps "ankle-above-forefoot" is meant',
  ],
  [
    'a rule suspended twice',
    ({ set }) => {
      set.variants[0].suspends[1].rule = 'heels-alike';
    },
    '/variants/foot-in-supination/suspends/1/rule',
    ' (variant "foot-in-supination"): found "heels-alike" twice among the suspended rules; take one out',
  ],
  [
    'unless a sided fact, for a rule without a side',
    ({ set }) => {
      set.variants[0].suspends[0].unless = 'heelRaiseMm';
    },
    '/variants/foot-in-supination/suspends/0/unless',
    ' (variant "foot-in-supination"): found "heelRaiseMm", which is recorded for each side, but the rule has no side; take it out, or use it in a rule for each side',
  ],
  [
    'other values for a rule that is not there',
    ({ set }) => {
      set.variants[0].allowed['foot-turn'] = set.variants[0].allowed['foot-turned-out'];
    },
    '/variants/foot-in-supination/allowed/foot-turn',
    ' (variant "foot-in-supination"): found "foot-turn", expected a rule of this set as it is written, without its side; check its spelling, or add it',
  ],
  [
    'other values for a rule that is suspended',
    ({ set }) => {
      set.variants[0].allowed['ankle-above-forefoot'] = { allowed: { range: [0, 90] }, borderline: 1 };
    },
    '/variants/foot-in-supination/allowed/ankle-above-forefoot',
    ' (variant "foot-in-supination"): found other values for "ankle-above-forefoot", which the same variant suspends; take one of the two out',
  ],
  [
    'other values for a turn',
    ({ set }) => {
      set.variants[0].allowed['thigh-wand-in-line'] = { allowed: { range: [0, 90] }, borderline: 1 };
    },
    '/variants/foot-in-supination/allowed/thigh-wand-in-line',
    ' (variant "foot-in-supination"): found other values for "thigh-wand-in-line", which is judged by "allowedTurn" and keeps its own; suspend it instead',
  ],
  [
    'other values the wrong way round',
    ({ set }) => {
      set.variants[0].allowed['foot-turned-out'].allowed.range = [53, -31];
    },
    '/variants/foot-in-supination/allowed/foot-turned-out/allowed/range',
    ' (variant "foot-in-supination"): found 53 and -31, expected the lower end first; exchange or correct them',
  ],
  [
    'a landmark for a marker that is not there',
    ({ set }) => {
      set.variants[0].landmarks = { R_MET5: 'elsewhere' };
    },
    '/variants/foot-in-supination/landmarks/R_MET5',
    ' (variant "foot-in-supination"): found "R_MET5", expected a marker of this set as it is written, without its side; perhaps "MET5" is meant',
  ],
];

describe('parseMarkerSet refuses variants that change nothing', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
