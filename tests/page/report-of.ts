import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { checkTrial } from '../../src/core/check-trial.ts';
import type { Report } from '../../src/core/report/report.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { normsOf, wands22 } from '../support/shipped-marker-sets.ts';

/** The report of a sample trial, with its session where it has one. */
export function reportOf(sample: string, session = emptySession): Report {
  const bytes = readFileSync(new URL(`../../sample-trials/${sample}.c3d`, import.meta.url));
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return checkTrial(bytes, wands22, session, { path: `${sample}.c3d`, sha256 }, normsOf('lower-limb-wands-22'));
}

export function sessionOf(sample: string) {
  return parseSession(readFileSync(new URL(`../../sample-trials/${sample}.session.json`, import.meta.url), 'utf8'));
}

export const samples = [
  'adult-well-placed',
  'child-well-placed',
  'epicondyles-swapped',
  'heel-low',
  'knee-bent',
  'knee-direction-unknown',
  'marker-missing',
  'metres-y-up',
  'restless-child',
  'sacral-high',
  'sides-swapped',
  'supinated-foot',
  'turned-wands-both-sides',
  'wand-forward',
] as const;
