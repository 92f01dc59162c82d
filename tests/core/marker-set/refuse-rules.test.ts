import { describe, expect, it } from 'vitest';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a point that is not there',
    ({ rule }) => {
      rule('heel-level').from = '@HEAL';
    },
    '/rules/heel-level/from',
    ' (rule "heel-level"): found "@HEAL", which stands for "R_HEAL", expected a marker or virtual point of this set; perhaps "@HEEL" is meant',
  ],
  [
    'a full name of one that is not there',
    ({ rule }) => {
      rule('asis-level').right = 'R_ASIZ';
    },
    '/rules/asis-level/right',
    ' (rule "asis-level"): found "R_ASIZ", expected a marker or virtual point of this set; perhaps "R_ASIS" is meant',
  ],
  [
    'a view that is not there',
    ({ rule }) => {
      rule('thigh-wand-in-line').view = '@.hipAxis';
    },
    '/rules/thigh-wand-in-line/view',
    ' (rule "thigh-wand-in-line"): found "@.hipAxis", which stands for "hipAxis.right", expected a view of this set; perhaps "@.kneeAxis" is meant',
  ],
  [
    'a view without the point after @',
    ({ rule }) => {
      rule('thigh-wand-in-line').view = '@kneeAxis';
    },
    '/rules/thigh-wand-in-line/view',
    ' (rule "thigh-wand-in-line"): found "@kneeAxis", which stands for "R_kneeAxis", expected a view of this set; perhaps "@.kneeAxis" is meant',
  ],
  [
    'a view of the other side',
    ({ rule }) => {
      rule('thigh-wand-in-line').view = 'kneeAxis.right';
    },
    '/rules/thigh-wand-in-line/view',
    ' (rule "thigh-wand-in-line"): found "kneeAxis.right", which is not on the left; write it with "@." and without its side',
  ],
  [
    'a segment that is not there',
    ({ rule }) => {
      rule('fibular-head-below').segment = '@.shin';
    },
    '/rules/fibular-head-below/segment',
    ' (rule "fibular-head-below"): found "@.shin", which stands for "shin.right", expected a segment of this set; perhaps "@.shank" is meant',
  ],
  [
    'a marker that may move and is not there',
    ({ rule }) => {
      rule('heel-level').mayMove = ['@HEELS'];
    },
    '/rules/heel-level/mayMove/0',
    ' (rule "heel-level"): found "@HEELS", which stands for "R_HEELS", expected a marker of this set; perhaps "@HEEL" is meant',
  ],
  [
    'a virtual point that may move',
    ({ rule }) => {
      rule('sacral-square').mayMove = ['midAsis'];
    },
    '/rules/sacral-square/mayMove/0',
    ' (rule "sacral-square"): found "midAsis", expected a marker of this set; check its spelling, or add it',
  ],
  [
    'markers that may move and are not measured',
    ({ rule }) => {
      rule('heel-level').mayMove = ['@GT'];
    },
    '/rules/heel-level/mayMove',
    ' (rule "heel-level"): found "@GT", but the rule measures none of it, so that moving it changes nothing; name a marker that it measures',
  ],
  [
    'markers that may move and only track',
    ({ marker, rule }) => {
      marker('HEEL').purpose = 'tracks';
      rule('heel-level').mayMove = ['@HEEL'];
    },
    '/rules/heel-level/mayMove',
    ' (rule "heel-level"): found only markers that track, which are never asked to move; name another, or change what they are for',
  ],
  [
    'a stance item that is not there',
    ({ rule }) => {
      rule('asis-level').explainedBy = ['knee-bend.right'];
    },
    '/rules/asis-level/explainedBy/0',
    ' (rule "asis-level"): found "knee-bend.right", expected a stance item of this set; perhaps "knee-bent.right" is meant',
  ],
  [
    'a stance item without its side',
    ({ rule }) => {
      rule('asis-level').explainedBy = ['knee-bent'];
    },
    '/rules/asis-level/explainedBy/0',
    ' (rule "asis-level"): found "knee-bent", expected a stance item of this set; it has two sides: write "@.knee-bent" where "sided" is true, else "knee-bent.right" or "knee-bent.left"',
  ],
  [
    'an essential rule on an optional marker',
    ({ marker, rule }) => {
      rule('heel-level').essential = true;
      marker('HEEL').presence = 'optional';
    },
    '/rules/heel-level/essential',
    ' (rule "heel-level"): found an essential rule on "R_HEEL", which is optional; make that marker "required", or the rule not essential',
  ],
  [
    'a rule of both sides that is sided',
    ({ rule }) => {
      rule('asis-level').sided = true;
      delete rule('asis-level').side;
    },
    '/rules/asis-level/sided',
    ' (rule "asis-level"): found true, but "pair-level" looks at both sides at once; take it out and write full names such as "R_GT"',
  ],
  [
    'a midline rule that is sided',
    ({ rule }) => {
      rule('sacral-on-midline').sided = true;
    },
    '/rules/sacral-on-midline/sided',
    ' (rule "sacral-on-midline"): found true, but "point-on-midline" looks at both sides at once; take it out and write full names such as "R_GT"',
  ],
  [
    'a side on a sided rule',
    ({ rule }) => {
      rule('heel-level').side = 'both';
    },
    '/rules/heel-level/side',
    ' (rule "heel-level"): found "both" on a rule for each side; take out "side" or "sided"',
  ],
  [
    'a pair on the midline',
    ({ rule }) => {
      rule('asis-level').side = 'midline';
    },
    '/rules/asis-level/side',
    ' (rule "asis-level"): found "midline", but "pair-level" compares both sides; write "both"',
  ],
  [
    'a sided rule that names one side',
    ({ rule }) => {
      Object.assign(rule('heel-level'), { from: 'R_HEEL', to: 'R_MET5' });
    },
    '/rules/heel-level/sided',
    ' (rule "heel-level"): found true, but the rule names no point of its side; write "@GT" for the one on its side',
  ],
  [
    'a look along a view without a side',
    ({ rule }) => {
      Object.assign(
        rule('thigh-wand-in-line'),
        JSON.parse(
          JSON.stringify({ ...rule('thigh-wand-in-line'), sided: false })
            .replaceAll('@.kneeAxis', 'kneeAxis.right')
            .replaceAll('"@', '"R_'),
        ),
      );
    },
    '/rules/thigh-wand-in-line/kind',
    ' (rule "thigh-wand-in-line"): found "point-in-line" without a side, but it looks along a view of one; write "sided": true',
  ],
  [
    'millimetres for a turn',
    ({ rule }) => {
      rule('knees-turned-alike').unit = 'mm';
    },
    '/rules/knees-turned-alike/unit',
    ' (rule "knees-turned-alike"): found "mm" for the component "turn"; write "deg"',
  ],
  [
    'degrees for a distance forward',
    ({ rule }) => {
      rule('thigh-wands-mirrored').unit = 'deg';
    },
    '/rules/thigh-wands-mirrored/unit',
    ' (rule "thigh-wands-mirrored"): found "deg" for the component "forward"; write "mm"',
  ],
  [
    'a ratio to nothing',
    ({ rule }) => {
      delete rule('thigh-to-shank').per;
    },
    '/rules/thigh-to-shank/unit',
    ' (rule "thigh-to-shank"): found "ratio" without "per"; say what the distance is divided by, or write "mm"',
  ],
  [
    'millimetres of a ratio',
    ({ rule }) => {
      rule('thigh-to-shank').unit = 'mm';
    },
    '/rules/thigh-to-shank/unit',
    ' (rule "thigh-to-shank"): found "mm" with "per"; write "ratio", or take "per" out',
  ],
  [
    'a line of no length',
    ({ rule }) => {
      rule('heel-level').to = '@HEEL';
    },
    '/rules/heel-level/to',
    ' (rule "heel-level"): found "@HEEL" as "from" and as "to", expected two different points; correct one',
  ],
  [
    'a pair of one marker',
    ({ rule }) => {
      rule('asis-level').left = 'R_ASIS';
    },
    '/rules/asis-level/left',
    ' (rule "asis-level"): found "R_ASIS" as "right" and as "left", expected two different points; correct one',
  ],
  [
    'a bend without its joint',
    ({ set }) => {
      delete set.stance[0].vertex;
    },
    '/stance/knee-bent/measure',
    ' (stance item "knee-bent"): found "bend" without "vertex"; name the joint between the two lines as "vertex"',
  ],
  [
    'a joint without a bend',
    ({ set }) => {
      set.stance[1].vertex = 'S1';
    },
    '/stance/trunk-lean-forward/vertex',
    ' (stance item "trunk-lean-forward"): found "S1", but "lean-forward" is the angle of one line; take it out',
  ],
  [
    'both ends open',
    ({ rule }) => {
      rule('foot-turned-out').allowed.range = [null, null];
    },
    '/rules/foot-turned-out/allowed/range',
    ' (rule "foot-turned-out"): found both ends open, so that nothing could fail; give at least one',
  ],
  [
    'the upper end first',
    ({ rule }) => {
      rule('foot-turned-out').allowed.range = [66, -20];
    },
    '/rules/foot-turned-out/allowed/range',
    ' (rule "foot-turned-out"): found 66 and -20, expected the lower end first; exchange or correct them',
  ],
  [
    'a band as wide as the limit',
    ({ rule }) => {
      rule('heel-level').borderline = 8;
    },
    '/rules/heel-level/borderline',
    ' (rule "heel-level"): found 8, which leaves nothing of the 8 on either side to pass; make it smaller',
  ],
  [
    'a band as wide as half the range',
    ({ rule }) => {
      rule('foot-turned-out').borderline = 48;
    },
    '/rules/foot-turned-out/borderline',
    ' (rule "foot-turned-out"): found 48, which leaves nothing of the 48 on either side to pass; make it smaller',
  ],
  [
    'a band as wide as the turn',
    ({ rule }) => {
      rule('thigh-wand-in-line').borderline = 5;
    },
    '/rules/thigh-wand-in-line/borderline',
    ' (rule "thigh-wand-in-line"): found 5, which leaves nothing of the 5 on either side to pass; make it smaller',
  ],
  [
    'no room for the axis',
    ({ rule }) => {
      rule('sacral-square').axisSdDeg = 28;
    },
    '/rules/sacral-square/axisSdDeg',
    ' (rule "sacral-square"): found 28, for which the limit of 28 leaves no room; widen the limit',
  ],
  [
    'a shift of a turn',
    ({ rule }) => {
      rule('thigh-wand-in-line').shiftedBy = [{ fact: 'legLengthDifferenceMm', factor: 1, widen: 0 }];
    },
    '/rules/thigh-wand-in-line/shiftedBy/0/fact',
    ' (rule "thigh-wand-in-line"): found "legLengthDifferenceMm" for a rule that is judged by "allowedTurn", which does not shift; take it out',
  ],
  [
    'a sided fact for a rule without a side',
    ({ rule }) => {
      rule('asis-level').shiftedBy[0].fact = 'heelRaiseMm';
    },
    '/rules/asis-level/shiftedBy/0/fact',
    ' (rule "asis-level"): found "heelRaiseMm", which is recorded for each side, but the rule has no side; take it out, or use it in a rule for each side',
  ],
  [
    'a stand-in that nothing replaces',
    ({ rule }) => {
      rule('heel-level').saysAbove = 'the {side} heel sits {valu} high';
    },
    '/rules/heel-level/saysAbove',
    ' (rule "heel-level"): found "{valu}", which nothing would replace; write one of {value} {size} {off} {side}, or no braces',
  ],
  [
    'a side in the text of a rule without one',
    ({ rule }) => {
      rule('asis-level').why = 'On the {side} it shows.';
    },
    '/rules/asis-level/why',
    ' (rule "asis-level"): found "{side}", which nothing would replace; write the text without braces',
  ],
  [
    'a stand-in in the words of a marker',
    ({ marker }) => {
      marker('GT').find = 'On the {side}.';
    },
    '/markers/GT/find',
    ' (marker "GT"): found "{side}", which nothing would replace; write the text without braces',
  ],
];

describe('parseMarkerSet refuses rules that could not work', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
