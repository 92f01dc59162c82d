import { readFileSync } from 'node:fs';
import type { BegunSession } from '../../src/core/practice/history.ts';
import type { Workshop } from '../../src/core/practice/make-trial.ts';
import { normsOf, wands22 } from './shipped-marker-sets.ts';

const adult = JSON.parse(readFileSync(new URL('../../shared/reference-adult.json', import.meta.url), 'utf8'));

/** What trials are made with. */
export const workshop: Workshop = {
  set: wands22,
  norms: normsOf('lower-limb-wands-22'),
  adult: new Map(Object.entries<[number, number, number]>(adult.positions)),
};

export function begunSession(seed: number, trials: number): BegunSession {
  return {
    kind: 'session',
    session: 's',
    trainee: 'AB',
    at: '2026-11-25T10:00:00+00:00',
    seed,
    source: 'made',
    markerSet: wands22.name,
    trials,
  };
}
