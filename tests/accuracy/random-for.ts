import { type SeededRandom, seededRandom } from '../../sample-trials/seeded-random.ts';

/** A source of its own for each part of a run, so that parts can be measured in any order. */
export function randomFor(seed: number, ...part: readonly number[]): SeededRandom {
  return seededRandom(part.reduce((mixed, one) => Math.imul(mixed ^ (one + 0x9e3779b9), 0x85ebca6b) >>> 0, seed));
}
