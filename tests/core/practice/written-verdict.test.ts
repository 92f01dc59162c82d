import { describe, expect, it } from 'vitest';
import type { MarkerChoice } from '../../../src/core/practice/shown-trial.ts';
import { skinWays } from '../../../src/core/practice/skin-ways.ts';
import { parseVerdict } from '../../../src/core/practice/written-verdict.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const choices: MarkerChoice[] = wands22.markers.map((marker) => ({
  marker: marker.label,
  landmark: marker.stem,
  called: marker.called,
  side: marker.side,
  ways: skinWays(marker),
}));

describe('parseVerdict', () => {
  it.each([
    ['nothing', []],
    [' NONE ', []],
    ['L_HEEL up 12', [{ marker: 'L_HEEL', way: 'up', mm: 12 }]],
    ['l_heel UP 12mm', [{ marker: 'L_HEEL', way: 'up', mm: 12 }]],
    ['l_heel d 7.5 mm', [{ marker: 'L_HEEL', way: 'down', mm: 7.5 }]],
    [
      'R_LE back 10, L_HEEL up 5',
      [
        { marker: 'R_LE', way: 'backward', mm: 10 },
        { marker: 'L_HEEL', way: 'up', mm: 5 },
      ],
    ],
  ])('reads %j', (text, verdict) => {
    expect(parseVerdict(text, choices)).toEqual(verdict);
  });

  it.each([
    ['', 'Write "nothing"'],
    ['KNEE up 5', '"KNEE" is none of the markers'],
    ['L_HEEL outward 5', 'L_HEEL is put right along the skin: up, down'],
    ['L_HEEL', 'along the skin'],
    ['L_HEEL up', 'How many mm?'],
    ['L_HEEL up -5', 'How many mm?'],
    ['L_HEEL up 301', 'How many mm?'],
    ['L_HEEL up 5 R_LE', 'put commas between'],
    ['L_HEEL up 5, L_HEEL down 5', 'named twice'],
  ])('says of %j what is wrong', (text, sentence) => {
    expect(parseVerdict(text, choices)).toContain(sentence);
  });
});
