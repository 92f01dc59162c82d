import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../sample-trials/seeded-random.ts';
import { population, setByEye } from './population.ts';

const heightOf = (landmarks: ReadonlyMap<string, readonly [number, number, number]>, label: string) =>
  landmarks.get(label)![2];

describe('the population that accuracy is measured on', () => {
  it('is the same for the same seed, and another for another', () => {
    expect([...population(4).draw().landmarks]).toEqual([...population(4).draw().landmarks]);
    expect([...population(4).draw().landmarks]).not.toEqual([...population(5).draw().landmarks]);
  });

  it('favours no side, and keeps the proportions of people', () => {
    let difference = 0;
    const ratios: number[] = [];
    const people = 400;
    for (let seed = 1; seed <= 8; seed += 1) {
      const from = population(seed);
      for (let i = 0; i < people / 8; i += 1) {
        const { landmarks, statureMm } = from.draw();
        difference += (heightOf(landmarks, 'R_LE') - heightOf(landmarks, 'L_LE')) / people;
        ratios.push(heightOf(landmarks, 'R_LE') / statureMm);
      }
    }
    expect(Math.abs(difference)).toBeLessThan(1.5);
    // Epicondyle height over stature: .280 (SD .008) in men, .286 (.010) in women (ANSUR II); children a little less.
    const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    expect(mean).toBeGreaterThan(0.27);
    expect(mean).toBeLessThan(0.292);
  });

  it('has heels level with the forefoot but for the hand', () => {
    const { landmarks, statureMm } = population(1).draw();
    const placed = setByEye(new Map(landmarks), statureMm, 1, seededRandom(1));
    expect(Math.abs(heightOf(placed, 'R_HEEL') - heightOf(placed, 'R_MET5'))).toBeLessThan(4.1);
  });
});
