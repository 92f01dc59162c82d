import { describe, expect, it } from 'vitest';
import { type Change, placeOf, refusalOf } from './changed-set.ts';

/** What is planted in a shipped set, the place that is named (entries by name, for their index), and what is said of it. */
const faults: readonly [string, Change, string, string][] = [
  [
    'a second marker of one label',
    ({ set, marker }) => {
      set.markers.push({ ...marker('GT') });
    },
    '/markers/last/label',
    ': found "GT", which another marker is called already; choose another name, or take one out',
  ],
  [
    'a midline marker that is called like one side of another',
    ({ set, marker }) => {
      set.markers.push({ ...marker('S1'), label: 'R_GT' });
    },
    '/markers/last/label',
    ': found "R_GT", which another marker is called already; choose another name, or take one out',
  ],
  [
    'a label that only punctuation tells from another',
    ({ set, marker }) => {
      set.markers.push({ ...marker('S1'), label: 'r-g t' });
    },
    '/markers/last/label',
    ': found "r-g t", which could mean "R_GT" or "r-g t", as letter case, spaces and punctuation do not tell labels apart; take it out or write another',
  ],
  [
    'an alias that is the label of another marker',
    ({ marker }) => {
      marker('S1').aliases = ['C7'];
    },
    '/markers/S1/aliases/0',
    ' (marker "S1"): found "C7", which could mean "C7" or "S1", as letter case, spaces and punctuation do not tell labels apart; take it out or write another',
  ],
  [
    'aliases of two markers that fold alike',
    ({ marker }) => {
      marker('S1').aliases = ['BACK'];
      marker('C7').aliases = ['Ba ck'];
    },
    '/markers/S1/aliases/0',
    ' (marker "S1"): found "BACK", which could mean "C7" or "S1", as letter case, spaces and punctuation do not tell labels apart; take it out or write another',
  ],
  [
    'one alias for both sides',
    ({ marker }) => {
      marker('GT').aliases = { right: ['Troch'], left: ['troch'] };
    },
    '/markers/GT/aliases/left/0',
    ' (marker "GT"): found "troch", which could mean "R_GT" or "L_GT", as letter case, spaces and punctuation do not tell labels apart; take it out or write another',
  ],
  [
    'a plain list of aliases for a sided marker',
    ({ marker }) => {
      marker('GT').aliases = ['Troch'];
    },
    '/markers/GT/aliases',
    ' (marker "GT"): found one list of aliases, but the marker is sided; write "right" and "left" with a list each',
  ],
  [
    'aliases by side for a marker without one',
    ({ marker }) => {
      marker('S1').aliases = { right: ['a'], left: ['b'] };
    },
    '/markers/S1/aliases',
    ' (marker "S1"): found aliases for right and left, but the marker is not sided; write one list',
  ],
  [
    'a label without letter or digit',
    ({ marker }) => {
      marker('S1').label = '***';
    },
    '/markers/S1/label',
    ': found "***", expected at least one letter or digit; write another',
  ],
  [
    'two segments of one name',
    ({ set }) => {
      set.segments.push({ name: 'pelvis' });
    },
    '/segments/last/name',
    ': found "pelvis", which another segment is called already; choose another name, or take one out',
  ],
  [
    'a segment called like one side of another',
    ({ set }) => {
      set.segments.push({ name: 'thigh.right' });
    },
    '/segments/last/name',
    ': found "thigh.right", which another segment is called already; choose another name, or take one out',
  ],
  [
    'two rules of one id',
    ({ set, rule }) => {
      set.rules.push({ ...rule('heel-level') });
    },
    '/rules/last/id',
    ': found "heel-level", which another rule is called already; choose another name, or take one out',
  ],
  [
    'two stance items of one id',
    ({ set }) => {
      set.stance.push({ ...set.stance[1] });
    },
    '/stance/last/id',
    ': found "trunk-lean-forward", which another stance item is called already; choose another name, or take one out',
  ],
  [
    'two variants of one id',
    ({ set }) => {
      set.variants.push({ ...set.variants[0] });
    },
    '/variants/last/id',
    ': found "foot-in-supination", which another variant is called already; choose another name, or take one out',
  ],
  [
    'two views of one name',
    ({ set }) => {
      set.views.push({ ...set.views[0] });
    },
    '/views/last/name',
    ': found "kneeAxis", which another view is called already; choose another name, or take one out',
  ],
  [
    'too many markers with both sides counted',
    ({ set, marker }) => {
      set.markers = Array.from({ length: 51 }, (_, i) => ({ ...marker('GT'), label: `X${i}` }));
    },
    '/markers',
    ': found 102 entries with both sides counted, expected at most 100; take some out',
  ],
  [
    'too many rules with both sides counted',
    ({ set, rule }) => {
      set.rules = Array.from({ length: 151 }, (_, i) => ({ ...rule('heel-level'), id: `x-${i}` }));
    },
    '/rules',
    ': found 302 entries with both sides counted, expected at most 300; take some out',
  ],
];

describe('parseMarkerSet refuses names that could mean two things, and lists that are too long', () => {
  it.each(faults)('%s', (_, plant, pointer, trouble) => {
    const place = placeOf(pointer);
    expect(refusalOf(plant)).toEqual({ pointer: place, message: `marker set, at ${place}${trouble}.` });
  });
});
