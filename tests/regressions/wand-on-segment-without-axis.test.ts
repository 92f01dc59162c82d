import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { MarkerSetError } from '../../src/core/marker-set/marker-set-error.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';

const shipped = readFileSync(new URL('../../shared/marker-sets/lower-limb-wands-22.json', import.meta.url), 'utf8');

// A wand turns about the long axis of its segment. On a segment without one the check of a trial in which the wand had
// to move ended in a TypeError.
test('a wand on a segment without a long axis is refused where the marker set is read', () => {
  const set = JSON.parse(shipped);
  const wand = set.markers.findIndex((marker: { wandLengthMm?: number }) => (marker.wandLengthMm ?? 0) > 0);
  set.markers[wand].segment = 'trunk';
  const parse = () => parseMarkerSet(JSON.stringify(set), '');
  expect(parse).toThrow(MarkerSetError);
  expect(parse).toThrow(`/markers/${wand}/`);
});
