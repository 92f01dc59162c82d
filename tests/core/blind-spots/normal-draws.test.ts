import { expect, it } from 'vitest';
import { normalDraws } from '../../../src/core/blind-spots/normal-draws.ts';

it('normalDraws are the same every time, and spread as normal numbers do', () => {
  const draws = normalDraws(20_001);
  expect(normalDraws(20_001)).toEqual(draws);
  const share = (test: (x: number) => boolean): number => draws.filter(test).length / draws.length;
  // Standard normal table: 68.3 % within 1 SD, 95.0 % within 1.96, half above 0.
  expect(share((x) => Math.abs(x) < 1)).toBeCloseTo(0.683, 2);
  expect(share((x) => Math.abs(x) < 1.96)).toBeCloseTo(0.95, 2);
  expect(share((x) => x > 0)).toBeCloseTo(0.5, 2);
  let lag = 0;
  for (let i = 1; i < draws.length; i++) lag += draws[i]! * draws[i - 1]!;
  expect(Math.abs(lag / draws.length)).toBeLessThan(0.02);
});
