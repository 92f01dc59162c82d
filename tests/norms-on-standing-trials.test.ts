import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { whiten } from '../src/core/decision/evidence.ts';
import { measureSensitivity } from '../src/core/decision/sensitivity.ts';
import { expectWellMarked, rulesWithNorms } from '../src/core/decision/well-marked.ts';
import { bodyHeightMm } from '../src/core/pose/body-height.ts';
import { assessRules, isAssessed } from '../src/core/rules/assess-rules.ts';
import { expectedRules } from '../src/core/rules/expected-rules.ts';
import { emptySession } from '../src/core/session/session.ts';
import { standTrial } from '../src/core/stand-trial.ts';
import { medial20, normsOf } from './support/shipped-marker-sets.ts';

const folder = new URL('../../shared/standing-trials/', import.meta.url);
const here = existsSync(folder);
if (!here) console.warn('Skipped: norms on real standing trials, since ../shared/standing-trials is not there.');
const files: readonly { readonly file: string }[] = here
  ? JSON.parse(readFileSync(new URL('index.json', folder), 'utf8'))
  : [];
const norms = normsOf('lower-limb-medial-20');

/** Residuals of the eleven trials in units of the SD that norms and hand give them, and how surprising each trial is. */
const trials = files.map(({ file }) => {
  const stood = standTrial(new Uint8Array(readFileSync(new URL(file, folder))), medial20, emptySession, null);
  if (!('body' in stood)) throw new Error(`Nobody stands in ${file}.`);
  const { body } = stood;
  const outcomes = assessRules(body, expectedRules(medial20, emptySession), emptySession).filter(isAssessed);
  const rules = rulesWithNorms(outcomes, norms);
  const expected = expectWellMarked(body, rules, norms, bodyHeightMm(body), measureSensitivity(body, rules));
  const n = rules.length;
  return {
    file,
    standardised: rules.map(({ rule }, i) => ({
      stem: rule.id.replace(/\.(right|left)$/, ''),
      z: expected.deviation[i]! / Math.sqrt(expected.covariance[i * n + i]!),
    })),
    /** Mahalanobis distance squared for each rule: 1 on average where mean and covariance are right. */
    surprise: whiten(expected, [])!.surprise / n,
  };
});
const all = trials.flatMap(({ standardised }) => standardised);

/**
 * The norms of the medial set are generated. On eleven real trials, of whom nobody knows how well they were marked, the
 * standardised residuals have to look like those of a standard normal: about 300 of them, far from independent, so the
 * bounds are wide, but a mean that is off by two SD or a spread that is off by half would show.
 */
describe.skipIf(!here)('the norms of the medial set on eleven real standing trials', () => {
  it('have residuals of about one SD: root mean square 0.8 to 1.2, mean within 0.2', () => {
    expect(all.length).toBeGreaterThan(280);
    const values = all.map(({ z }) => z);
    expect(Math.abs(values.reduce((sum, z) => sum + z, 0) / values.length)).toBeLessThan(0.2);
    expect(rootMeanSquare(values)).toBeGreaterThan(0.8);
    expect(rootMeanSquare(values)).toBeLessThan(1.2);
  });

  it('have few that are far out: at most 6 % beyond two SD and 2 % beyond three', () => {
    const beyond = (limit: number) => all.filter(({ z }) => Math.abs(z) > limit).length / all.length;
    expect(beyond(2)).toBeLessThan(0.06);
    expect(beyond(3)).toBeLessThan(0.02);
  });

  it('have no rule that is off everywhere: each seen ten times or more, root mean square 0.3 to 1.7', () => {
    const stems = [...new Set(all.map(({ stem }) => stem))];
    const seen = stems.map((stem) => [stem, all.filter((one) => one.stem === stem).map(({ z }) => z)] as const);
    const often = seen.filter(([, values]) => values.length >= 10);
    expect(often.length).toBeGreaterThan(15);
    for (const [stem, values] of often) {
      expect(rootMeanSquare(values), stem).toBeGreaterThan(0.3);
      expect(rootMeanSquare(values), stem).toBeLessThan(1.7);
    }
  });

  it('find no trial surprising as a whole: distance for each rule 0.6 to 1.3 on average, below 1.6 for each', () => {
    const mean = trials.reduce((sum, { surprise }) => sum + surprise, 0) / trials.length;
    expect(mean).toBeGreaterThan(0.6);
    expect(mean).toBeLessThan(1.3);
    for (const { file, surprise } of trials) expect(surprise, file).toBeLessThan(1.6);
  });
});

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, z) => sum + z * z, 0) / values.length);
}
