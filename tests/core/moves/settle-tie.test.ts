import { describe, expect, it } from 'vitest';
import type { Suspect } from '../../../src/core/moves/choose-marker.ts';
import { tieOf } from '../../../src/core/moves/settle-tie.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

function suspect(label: string, probability: number | null): Suspect {
  const marker = wands22.markers.find((candidate) => candidate.label === label)!;
  return { marker, probability, failing: [], remains: 1 } as unknown as Suspect;
}

describe('tieOf', () => {
  it('is none where the marker stands out three to one, or nothing weighed it', () => {
    expect(tieOf(suspect('R_TW', 0.6), [suspect('R_LE', 0.19)])).toBeNull();
    expect(tieOf(suspect('R_TW', null), [suspect('R_LE', null)])).toBeNull();
    expect(tieOf(suspect('R_TW', 0.6), [])).toBeNull();
  });

  it('is settled by palpating: the bone answers, a line does not', () => {
    const tie = tieOf(suspect('R_TW', 0.4), [suspect('R_LE', 0.3), suspect('R_GT', 0.05)])!;
    expect(tie.markers).toEqual(['R_TW', 'R_LE']);
    expect(tie.settledBy).toBe('R_LE');
    expect(tie.says).toBe(
      "Too close to call: palpating again for the patient's right outer knee marker settles most; do that first.",
    );
  });

  it('is settled by the landmark whose answer is least foreseen', () => {
    // Of 0.50, 0.28 and 0.22 the first is nearest to one in two; with 0.70, 0.45 and 0.25 of 1.40, too.
    expect(tieOf(suspect('R_LE', 0.5), [suspect('R_GT', 0.28), suspect('R_HF', 0.22)])!.settledBy).toBe('R_LE');
    expect(tieOf(suspect('R_GT', 0.3), [suspect('R_LE', 0.4), suspect('R_TW', 0.11)])!.settledBy).toBe('R_LE');
  });

  it('of two wands is settled by the step itself, and names no other', () => {
    const tie = tieOf(suspect('R_TW', 0.4), [suspect('L_TW', 0.3)])!;
    expect(tie.settledBy).toBe('R_TW');
    expect(tie.says).toBe('Too close to call; this look settles most.');
  });

  it('is none between two that are both hardly off', () => {
    expect(tieOf(suspect('R_TW', 0.09), [suspect('R_LE', 0.08)])).toBeNull();
  });
});
