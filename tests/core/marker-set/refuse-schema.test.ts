import { describe, expect, it } from 'vitest';
import { ruleKinds } from '../../../src/core/rule-kinds/all-rule-kinds.ts';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a misspelt field',
    ({ marker }) => {
      Object.assign(marker('GT'), { calld: 'x' });
    },
    '/markers/GT',
    ' (marker "GT"): found "calld", which is not a field that is known here, beside "called"; take it out',
  ],
  [
    'a field misspelt in place of a needed one',
    ({ marker }) => {
      marker('GT').lable = 'GT';
      delete marker('GT').label;
    },
    '/markers/GT',
    ': found "lable", which is not a field that is known here; write "label" in its place',
  ],
  [
    'a field that is not there',
    ({ marker }) => {
      delete marker('GT').find;
    },
    '/markers/GT',
    ' (marker "GT"): found no "find", which is needed here; add it',
  ],
  [
    'a field of another kind of rule',
    ({ rule }) => {
      rule('heel-level').vertex = '@LM';
    },
    '/rules/heel-level',
    ' (rule "heel-level"): found "vertex", which is not a field that is known here; known are "from", "to", "allowed", "id", "sided", "side", "title", "kind", "unit", "borderline", "saysAbove", "saysBelow", "source", "basis", "essential" and 7 more, so check its spelling or take it out',
  ],
  [
    'a field that is nothing known',
    ({ rule }) => {
      rule('heel-level').tolerance = 5;
    },
    '/rules/heel-level',
    ' (rule "heel-level"): found "tolerance", which is not a field that is known here; known are "from", "to", "allowed", "id", "sided", "side", "title", "kind", "unit", "borderline", "saysAbove", "saysBelow", "source", "basis", "essential" and 7 more, so check its spelling or take it out',
  ],
  [
    'a field called like one of every object',
    ({ rule }) => {
      Object.defineProperty(rule('heel-level'), '__proto__', { value: {}, enumerable: true });
      rule('heel-level').constructor = 1;
    },
    '/rules/heel-level',
    ' (rule "heel-level"): found "__proto__", which is not a field that is known here; known are "from", "to", "allowed", "id", "sided", "side", "title", "kind", "unit", "borderline", "saysAbove", "saysBelow", "source", "basis", "essential" and 7 more, so check its spelling or take it out',
  ],
  [
    'a constructor in a rule',
    ({ rule }) => {
      rule('heel-level').constructor = 1;
    },
    '/rules/heel-level',
    ' (rule "heel-level"): found "constructor", which is not a field that is known here; known are "from", "to", "allowed", "id", "sided", "side", "title", "kind", "unit", "borderline", "saysAbove", "saysBelow", "source", "basis", "essential" and 7 more, so check its spelling or take it out',
  ],
  [
    'a number in quotes',
    ({ marker }) => {
      marker('GT').diameterMm = '14';
    },
    '/markers/GT/diameterMm',
    ' (marker "GT"): found "14", expected a number; write it without quotes, with a point for the decimals',
  ],
  [
    'a null',
    ({ marker }) => {
      marker('GT').baseThicknessMm = null;
    },
    '/markers/GT/baseThicknessMm',
    ' (marker "GT"): found null, expected a number; leave the field out where there is nothing to say',
  ],
  [
    'a word that is not one of those allowed',
    ({ marker }) => {
      marker('GT').presence = 'requierd';
    },
    '/markers/GT/presence',
    ' (marker "GT"): found "requierd", expected "required", "optional" or "static-only"; perhaps "required" is meant',
  ],
  [
    'a kind that is not known',
    ({ rule }) => {
      rule('heel-level').kind = 'pair-levl';
    },
    '/rules/heel-level/kind',
    ` (rule "heel-level"): found "pair-levl", expected "line-parallel-to-floor", "point-in-line", "line-square-to-axis", "pair-level", "pair-mirrored", "lengths-alike", "point-on-midline" or one of ${Object.keys(ruleKinds).length - 7} more; perhaps "pair-level" is meant`,
  ],
  [
    'a unit that the kind does not have',
    ({ rule }) => {
      rule('asis-level').unit = 'deg';
    },
    '/rules/asis-level/unit',
    ' (rule "asis-level"): found "deg", expected "mm"; write it so',
  ],
  [
    'a number below the least',
    ({ marker }) => {
      marker('GT').diameterMm = 0;
    },
    '/markers/GT/diameterMm',
    ' (marker "GT"): found 0, expected a number above 0; correct it',
  ],
  [
    'a number above the most',
    ({ marker }) => {
      marker('GT').diameterMm = 140;
    },
    '/markers/GT/diameterMm',
    ' (marker "GT"): found 140, expected a number of at most 60; correct it, and check its unit',
  ],
  [
    'an id with capitals',
    ({ rule }) => {
      rule('heel-level').id = 'Heel level';
    },
    '/rules/heel-level/id',
    ': found "Heel level", expected lower-case letters, digits and hyphens, 64 at most, beginning with a letter or a digit; correct it',
  ],
  [
    'a version of two numbers',
    ({ set }) => {
      set.version = '1.0';
    },
    '/version',
    ': found "1.0", expected three whole numbers with points between them, such as 1.0.0; correct it',
  ],
  [
    'a blank text',
    ({ marker }) => {
      marker('GT').find = ' ';
    },
    '/markers/GT/find',
    ' (marker "GT"): found " ", expected a text that is not blank and holds no line breaks or invisible characters; correct it',
  ],
  [
    'a line break in a text',
    ({ marker }) => {
      marker('GT').find = 'Here.\nThere.';
    },
    '/markers/GT/find',
    ' (marker "GT"): found "Here.\\u000aThere.", expected a text that is not blank and holds no line breaks or invisible characters; correct it',
  ],
  [
    'a text too long',
    ({ marker }) => {
      marker('GT').find = 'x'.repeat(1001);
    },
    '/markers/GT/find',
    ' (marker "GT"): found a text of 1001 characters, expected at most 1000; shorten it',
  ],
  [
    'a label with a right-to-left override',
    ({ marker }) => {
      marker('S1').label = 'S\u202e1';
    },
    '/markers/S1/label',
    ': found "S\\u202e1", expected a name without invisible characters and braces, that neither begins with @ nor begins or ends with a space; correct it',
  ],
  [
    'a label with an escape character',
    ({ marker }) => {
      marker('S1').label = '\u001b[2JS1';
    },
    '/markers/S1/label',
    ': found "\\u001b[2JS1", expected a name without invisible characters and braces, that neither begins with @ nor begins or ends with a space; correct it',
  ],
  [
    'a label with half a surrogate pair',
    ({ marker }) => {
      marker('S1').label = 'S\ud800';
    },
    '/markers/S1/label',
    ': found "S\\ud800", expected a name without invisible characters and braces, that neither begins with @ nor begins or ends with a space; correct it',
  ],
  [
    'a label of 10,000 characters',
    ({ marker }) => {
      marker('S1').label = 'S'.repeat(10000);
    },
    '/markers/S1/label',
    ': found a text of 10000 characters, expected at most 64; shorten it',
  ],
  [
    'a label that begins with @',
    ({ marker }) => {
      marker('S1').label = '@S1';
    },
    '/markers/S1/label',
    ': found "@S1", expected a name without invisible characters and braces, that neither begins with @ nor begins or ends with a space; correct it',
  ],
  [
    'neither target nor range',
    ({ rule }) => {
      rule('heel-level').allowed = {};
    },
    '/rules/heel-level/allowed',
    ' (rule "heel-level"): found no "target", expected either "target" with "limit", or "range"; add what is missing',
  ],
  [
    'a misspelt limit',
    ({ rule }) => {
      rule('heel-level').allowed = { target: 0, limt: 8 };
    },
    '/rules/heel-level/allowed',
    ' (rule "heel-level"): found "limt", which is not a field that is known here; write "limit" in its place',
  ],
  [
    'target and range',
    ({ rule }) => {
      rule('heel-level').allowed = { target: 0, range: [0, 1] };
    },
    '/rules/heel-level/allowed',
    ' (rule "heel-level"): found "target", which does not go with what else stands here; take it out',
  ],
  [
    'aliases in one text',
    ({ marker }) => {
      marker('S1').aliases = 'BACK';
    },
    '/markers/S1/aliases',
    ' (marker "S1"): found "BACK", expected a list in square brackets or an object in braces; correct it',
  ],
  [
    'the same alias twice',
    ({ marker }) => {
      marker('S1').aliases = ['BACK', 'BACK'];
    },
    '/markers/S1/aliases',
    ' (marker "S1"): found "BACK" twice, expected each once; take one out',
  ],
  [
    'per something else',
    ({ rule }) => {
      rule('leg-to-stature').per = 'height';
    },
    '/rules/leg-to-stature/per',
    ' (rule "leg-to-stature"): found "height", expected "stature", or a line with "from" and "to"; write one of them',
  ],
  [
    'a construct that is not known',
    ({ point }) => {
      point('midAsis').construct = 'middle';
    },
    '/virtualPoints/midAsis/construct',
    ' (virtual point "midAsis"): found "middle", expected "midpoint", "first-of", "along-line" or "hip-centre"; choose one of these',
  ],
  [
    'a field of another construct',
    ({ point }) => {
      point('midAsis').fraction = 0.5;
    },
    '/virtualPoints/midAsis',
    ' (virtual point "midAsis"): found "fraction", which is not a field that is known here; known are "of", "name", "sided" and "construct", so check its spelling or take it out',
  ],
  [
    'a list that is too short',
    ({ set }) => {
      set.markers = [];
    },
    '/markers',
    ': found 0 entries, expected at least 3; add what is missing',
  ],
  [
    'a view without an estimate',
    ({ set }) => {
      delete set.views[0].estimate;
    },
    '/views/kneeAxis',
    ' (view "kneeAxis"): found no "estimate", which is needed here; add it',
  ],
  [
    'a recorded fact without its spread',
    ({ set }) => {
      delete set.views[0].recordedSdDeg;
    },
    '/views/kneeAxis',
    ' (view "kneeAxis"): found no "recordedSdDeg", which is needed here; add it',
  ],
  [
    'another format',
    ({ set }) => {
      set.format = 'setsquare-marker-set/2';
    },
    '/format',
    ': found "setsquare-marker-set/2", expected "setsquare-marker-set/1"; write it so',
  ],
  [
    'a landmark for __proto__',
    ({ set }) => {
      Object.defineProperty(set.variants[0].landmarks, '__proto__', { value: 'x', enumerable: true });
    },
    '/variants/foot-in-supination/landmarks/__proto__',
    ' (variant "foot-in-supination"): found "__proto__", expected a marker of this set as it is written, without its side; check its spelling, or add it',
  ],
  [
    'a landmark for a name of 10,000 characters',
    ({ set }) => {
      set.variants[0].landmarks = { ['M'.repeat(10000)]: 'x' };
    },
    '/variants/foot-in-supination/landmarks',
    ' (variant "foot-in-supination"): found "MMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMMM...", which cannot be a name here; take it out or write it otherwise',
  ],
];

describe('parseMarkerSet refuses what the schema refuses, in words', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
