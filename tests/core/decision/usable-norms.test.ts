import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Norms } from '../../../src/core/decision/norms.ts';
import { NormsError } from '../../../src/core/decision/norms-error.ts';
import { parseNorms } from '../../../src/core/decision/parse-norms.ts';
import { usableNorms } from '../../../src/core/decision/usable-norms.ts';
import type { LoadedMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import * as shippedSets from '../../support/shipped-marker-sets.ts';

const shipped = (name: string): Norms =>
  JSON.parse(readFileSync(new URL(`../../../shared/norms/${name}.json`, import.meta.url), 'utf8'));
/** A set under the hash of its file, as norms know it. */
function hashed(set: LoadedMarkerSet): LoadedMarkerSet {
  const file = new URL(`../../../shared/marker-sets/${set.name}.json`, import.meta.url);
  return { ...set, sha256: createHash('sha256').update(readFileSync(file)).digest('hex') };
}

const wands22 = hashed(shippedSets.wands22);
const medial20 = hashed(shippedSets.medial20);
const wands = shipped('lower-limb-wands-22');

describe('norms that ship', () => {
  it.each([wands22, medial20])(
    'are for the set as it ships, cover each of its rules, and are symmetric: $name',
    (set) => {
      const norms = parseNorms(JSON.stringify(shipped(set.name)), set);
      expect([...norms.residuals].sort()).toEqual(set.rules.map(({ id }) => id).sort());
      const at = (id: string) => norms.residuals.indexOf(id);
      const entry = (a: number, b: number) =>
        norms.covariance[(Math.max(a, b) * (Math.max(a, b) + 1)) / 2 + Math.min(a, b)]!;
      for (const id of norms.residuals.filter((one) => one.endsWith('.right'))) {
        const other = id.replace('.right', '.left');
        expect(norms.mean[at(id)]).toBeCloseTo(norms.mean[at(other)]!, 3);
        expect(entry(at(id), at(id)) / (entry(at(other), at(other)) || 1)).toBeCloseTo(
          entry(at(id), at(id)) === 0 ? 0 : 1,
          2,
        );
      }
    },
  );
});

describe('norms are refused', () => {
  it.each([
    [
      'made for another set',
      { ...wands, markerSet: { ...wands.markerSet, sha256: 'a'.repeat(64) } },
      /they were made for lower-limb-wands-22 1\.0\.0 \(hash aaaaaaaa\), but the marker set is/,
    ],
    [
      'with a rule that the set does not have',
      { ...wands, residuals: ['heel', ...wands.residuals.slice(1)] },
      /"heel" is no rule of this set/,
    ],
    [
      'with the same rule twice',
      { ...wands, residuals: [wands.residuals[1]!, ...wands.residuals.slice(1)] },
      /stands there twice/,
    ],
    [
      'with too few figures',
      { ...wands, mean: wands.mean.slice(1) },
      /51 residuals need 51 means and 1326 covariances, found 50 and 1326/,
    ],
    ['with a figure that is none', { ...wands, mean: [Number.NaN, ...wands.mean.slice(1)] }, /a figure is no number/],
  ])('%s', (_, norms, sentence) => {
    expect(() => usableNorms(norms, wands22)).toThrow(NormsError);
    expect(() => usableNorms(norms, wands22)).toThrow(sentence);
  });

  it('that do not follow the schema, with the place', () => {
    expect(() => parseNorms('{}', wands22)).toThrow(/norms/);
    expect(() => parseNorms(JSON.stringify({ ...wands, people: 0 }), wands22)).toThrow('/people');
  });
});
