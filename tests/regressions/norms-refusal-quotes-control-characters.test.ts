import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { NormsError } from '../../src/core/decision/norms-error.ts';
import { parseNorms } from '../../src/core/decision/parse-norms.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';

const read = (path: string) => readFileSync(new URL(`../../shared/${path}`, import.meta.url), 'utf8');
const setText = read('marker-sets/lower-limb-wands-22.json');
const set = parseMarkerSet(setText, createHash('sha256').update(setText).digest('hex'));

// Names from the norms file stood in the refusals as they were, escapes and all.
test.each<[string, (norms: Record<string, unknown>, hostile: string) => void]>([
  ['the name of the norms', (norms, hostile) => Object.assign(norms, { name: hostile, mean: [] })],
  ['the rule that is not there', (norms, hostile) => Object.assign(norms, { residuals: [hostile] })],
  [
    'the other set',
    (norms, hostile) =>
      Object.assign(norms, { markerSet: { name: hostile, version: hostile, sha256: '0'.repeat(64) } }),
  ],
])('the refusal of norms holds no character that a terminal obeys: %s', (_, spoil) => {
  for (const hostile of ['\u001b[31m', 'a\nb\t', '\u202e', '\ud800']) {
    const norms = JSON.parse(read('norms/lower-limb-wands-22.json'));
    spoil(norms, hostile);
    const parse = () => parseNorms(JSON.stringify(norms), set);
    expect(parse).toThrow(NormsError);
    expect(parse).not.toThrow(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
  }
});
