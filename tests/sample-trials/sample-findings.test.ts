import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../src/core/check-trial.ts';
import type { Report } from '../../src/core/report/report.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';
import { failing } from '../support/still-trial.ts';

const folder = new URL('../../sample-trials/', import.meta.url);

interface PlantedFile {
  readonly trials: Readonly<
    Record<
      string,
      {
        readonly planted: readonly {
          readonly kind: string;
          readonly marker?: string;
          readonly markers?: readonly string[];
          readonly mm?: { readonly forward: number; readonly left: number; readonly up: number };
          readonly distanceMm?: number;
        }[];
        readonly session: string | null;
        readonly onPlates?: { readonly massKg: number; readonly rightShare: number };
        readonly recording: { readonly units: string; readonly vertical: string; readonly frames: number };
      }
    >
  >;
}

const { trials } = JSON.parse(readFileSync(new URL('planted.json', folder), 'utf8')) as PlantedFile;

function check(name: string): Report {
  const beside = new URL(`${name}.session.json`, folder);
  const session = existsSync(beside) ? parseSession(readFileSync(beside, 'utf8')) : emptySession;
  const bytes = new Uint8Array(readFileSync(new URL(`${name}.c3d`, folder)));
  return checkTrial(bytes, wands22, session, { path: `${name}.c3d`, sha256: '0'.repeat(64) });
}

/** What sample-trials/README.md says of each trial, as a reader of the report should find it. */
interface Expected {
  readonly verdict: Report['verdict'];
  /** action, marker, way along the skin */
  readonly steps?: readonly (readonly [string, string | undefined, string | undefined])[];
  readonly failing?: readonly string[];
  readonly problems?: readonly string[];
  readonly notes?: readonly string[];
}

const backward = 'backward, toward the hamstrings';
const expected: Readonly<Record<string, Expected>> = {
  'adult-well-placed': { verdict: 'ready' },
  'child-well-placed': { verdict: 'ready' },
  'wand-forward': {
    verdict: 'adjust',
    steps: [['move', 'R_TW', backward]],
    failing: ['thigh-wand-in-line.right'],
  },
  'sacral-high': {
    verdict: 'adjust',
    steps: [['palpate-again', 'S1', 'down, toward the feet']],
    failing: ['sacral-square'],
  },
  'heel-low': {
    verdict: 'adjust',
    steps: [['move', 'L_HEEL', 'up, away from the sole']],
    failing: ['heel-level.left'],
  },
  'epicondyles-swapped': {
    verdict: 'adjust',
    steps: [['relabel', 'R_LE', undefined]],
    problems: ['labels-swapped'],
  },
  'sides-swapped': { verdict: 'adjust', steps: [['relabel', undefined, undefined]], problems: ['labels-swapped'] },
  'marker-missing': { verdict: 'adjust', problems: ['marker-missing'] },
  // Most of the rules within one segment can still be judged.
  'restless-child': { verdict: 'ready', problems: ['not-still'] },
  'metres-y-up': { verdict: 'ready' },
  'supinated-foot': { verdict: 'ready', notes: ['variant'] },
  'knee-bent': {
    verdict: 'adjust',
    steps: [['stand-again', undefined, undefined]],
    failing: ['asis-level', 'thighs-alike'],
  },
  'knee-direction-unknown': { verdict: 'ready', notes: ['both-sides-alike', 'both-sides-alike'] },
  'turned-wands-both-sides': {
    verdict: 'adjust',
    // The left one costs the data a little more.
    steps: [
      ['move', 'L_TW', backward],
      ['move', 'R_TW', backward],
    ],
    failing: ['thigh-wand-in-line.right', 'thigh-wand-in-line.left'],
    notes: ['both-sides-alike'],
  },
  'on-force-plates': { verdict: 'ready' },
};

describe('the sample trials', () => {
  it('are each told of here', () => {
    expect(Object.keys(expected).sort()).toEqual(Object.keys(trials).sort());
  });

  it.each(Object.entries(expected))(
    '%s gives the finding that was planted, and no other',
    (name, { verdict, steps = [], ...rest }) => {
      const report = check(name);
      expect(report.verdict).toBe(verdict);
      expect(report.moves.map(({ action, marker, along }) => [action, marker, along])).toEqual(
        steps.map((step) => [...step]),
      );
      expect(failing(report).sort()).toEqual([...(rest.failing ?? [])].sort());
      expect(report.problems.map(({ code }) => code)).toEqual(rest.problems ?? []);
      expect(report.notes.map(({ code }) => code)).toEqual(rest.notes ?? []);
      expect(report.stillFailing).toEqual([]);
    },
  );

  it.each(Object.entries(trials).filter(([, { planted }]) => planted.some(({ mm }) => mm !== undefined)))(
    '%s is sent back by as much as was planted',
    (name, { planted }) => {
      const report = check(name);
      for (const { marker, mm, distanceMm } of planted) {
        const move = report.moves.find((one) => one.marker === marker)!;
        // The sacral marker's place is known from the trunk alone, to about 9 degrees (1 SD) among people.
        const within = marker === 'S1' ? 2 * move.uncertaintyMm! : 2;
        expect(Math.abs(move.distanceMm! - distanceMm!), marker).toBeLessThan(within);
        expect(Math.abs(move.mm!.up + mm!.up), marker).toBeLessThan(within);
        expect(Math.abs(move.mm!.forward + mm!.forward), marker).toBeLessThan(within);
      }
    },
  );

  it('on-force-plates gives back the planted mass within 0.5 %, and who stands on what', () => {
    const { onPlates } = trials['on-force-plates']!;
    const { stance, plates } = check('on-force-plates');
    expect(Math.abs(plates!.massKg! / onPlates!.massKg - 1)).toBeLessThan(0.005);
    expect(Math.abs(stance!.loadShare! - onPlates!.rightShare)).toBeLessThan(0.005);
    expect(plates!.each.map(({ feet, outsideFootMm, zeroed }) => [feet, outsideFootMm, zeroed])).toEqual([
      [['right'], 0, true],
      [['left'], 0, true],
    ]);
    expect(check('adult-well-placed').plates).toBeNull();
  });

  it('say which labels were exchanged', () => {
    for (const [name, { planted }] of Object.entries(trials)) {
      const exchanged = planted.find(({ kind }) => kind === 'labels-exchanged')?.markers;
      if (exchanged === undefined) continue;
      const told = check(name).problems.flatMap(({ code, markers }) => (code === 'labels-swapped' ? markers : []));
      expect([...told].sort()).toEqual([...exchanged].sort());
    }
  });

  it('say which marker was never seen', () => {
    expect(check('marker-missing').problems[0]!.markers).toEqual(['R_MET5']);
  });

  it('are read in their own units and axes', () => {
    for (const [name, { recording }] of Object.entries(trials)) {
      const { trial } = check(name);
      expect([trial.units, trial.vertical, trial.frames]).toEqual([
        recording.units,
        recording.vertical,
        recording.frames,
      ]);
    }
  });
});
