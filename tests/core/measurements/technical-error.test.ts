import { expect, it } from 'vitest';
import { technicalError } from '../../../src/core/measurements/technical-error.ts';

/** Bland and Altman 1986, Lancet i:307-310: peak flow of 17 people, twice by each meter. */
const wright = [
  [494, 490],
  [395, 397],
  [516, 512],
  [434, 401],
  [476, 470],
  [557, 611],
  [413, 415],
  [442, 431],
  [650, 638],
  [433, 429],
  [417, 420],
  [656, 633],
  [267, 275],
  [478, 492],
  [178, 165],
  [423, 372],
  [427, 421],
];

it('technicalError of pairs is the within-subject standard deviation of the published example', () => {
  expect(technicalError(wright)).toBeCloseTo(15.307, 3);
});

it('technicalError weighs each row by its own readings, and is none where nothing was read twice', () => {
  expect(technicalError([[10, 12], [20]])).toBeCloseTo(Math.SQRT2, 12);
  expect(technicalError([[3], [4]])).toBeNull();
});
