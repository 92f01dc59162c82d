import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { findBlindSpots } from '../../src/core/blind-spots/find-blind-spots.ts';
import { bodyFromPositions } from '../../src/core/pose/body-from-positions.ts';
import { assessRules } from '../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { symmetricAdult } from '../support/ordinary-people.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

it('the README says of false alarms what the accuracy run measured', () => {
  const measured = [...read('docs/accuracy.md').matchAll(/^\| False alarms at most 5 % [^|]*\| (\d+) %/gm)].map(
    ([, share]) => Number(share),
  );
  expect(measured).toHaveLength(3);
  const [, from, to] = /(\d+) to (\d+) in a hundred get a\s+finding/.exec(read('README.md'))!;
  expect([Number(from), Number(to)]).toEqual([Math.min(...measured), Math.max(...measured)]);
});

it('the README says of blind spots what is computed', () => {
  const adult = symmetricAdult();
  const body = bodyFromPositions(wands22, emptySession, (label) => adult.get(label))!;
  const spots = findBlindSpots(body, assessRules(body, expectedRules(wands22, emptySession), emptySession), null);
  const fails = (how: string, marker: string, toward: string) =>
    spots.find((spot) => spot.how === how && spot.markers[0] === marker && spot.toward === toward)!.fails;
  expect(fails('alone', 'S1', 'up')).toBeNull();
  expect(fails('with-followers', 'R_GT', 'backward')?.mm ?? 60).toBeGreaterThan(40);
});
