import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bodySizes } from '../sample-trials/body-proportions.ts';
import { readC3d } from '../src/core/c3d/read-c3d.ts';
import { readPoints } from '../src/core/c3d/read-points.ts';
import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import { foldLabel } from '../src/core/marker-set/fold-label.ts';
import type { Measure } from '../src/core/marker-set/measure.ts';
import { emptySession, type Measurement, type Session } from '../src/core/session/session.ts';
import { symmetricAdult } from './support/ordinary-people.ts';
import { medial20 } from './support/shipped-marker-sets.ts';
import { checkBytes, failing, ruleValue } from './support/still-trial.ts';

const folder = new URL('../../shared/standing-trials/', import.meta.url);
const here = existsSync(folder);
if (!here) console.warn('Skipped: real standing trials, since ../shared/standing-trials is not there.');

interface StoredSide {
  readonly legLengthMm?: number;
  readonly kneeDiameterMm?: number;
  readonly ankleDiameterMm?: number;
}

interface Stored {
  readonly statureMm?: number;
  readonly pelvisWidthMm?: number;
  readonly right?: StoredSide;
  readonly left?: StoredSide;
}

interface Listed {
  readonly storedMeasurements: Stored;
  readonly file: string;
  readonly frames: number;
  readonly rateHz: number;
  readonly vertical: string;
  readonly markers: readonly string[];
}

const listed: readonly Listed[] = here ? JSON.parse(readFileSync(new URL('index.json', folder), 'utf8')) : [];
const bytesOf = (file: string) => new Uint8Array(readFileSync(new URL(file, folder)));
const check = (bytes: Uint8Array) => checkBytes(bytes, emptySession, medial20);

/** The trial with one marker moved in every frame, along the axes of the laboratory, in the file's units. */
function shifted(bytes: Uint8Array, label: string, axis: number, by: number): Uint8Array {
  const file = readC3d(bytes);
  const values = Float32Array.from(readPoints(file).values);
  const point = file.labels.findIndex((one) => foldLabel(one) === foldLabel(label));
  for (let at = point * 4; at < values.length; at += file.pointCount * 4) values[at + axis]! += by;
  const { labels, pointCount, frameCount, rateHz, units, firstFrame } = file;
  return writeC3d({
    labels,
    pointCount,
    frameCount,
    rateHz,
    units,
    firstFrame,
    values,
    screen: { x: '', y: file.screen.y ?? '' },
  });
}

describe.skipIf(!here)('eleven real standing trials', () => {
  it('are eleven', () => {
    expect(listed).toHaveLength(11);
  });

  it.each(listed.map((one) => [one.file, one] as const))(
    '%s is read as its index says',
    (file, { frames, rateHz, vertical, markers }) => {
      const { trial, markers: found, problems } = check(bytesOf(file));
      expect([trial.frames, trial.rateHz, trial.vertical, trial.units]).toEqual([frames, rateHz, vertical, 'mm']);
      const known = medial20.markers.map(({ label }) => label);
      expect(Object.keys(found).sort()).toEqual(markers.filter((label) => known.includes(label)).sort());
      expect(problems.map(({ code }) => code).filter((code) => code !== 'marker-gap')).toEqual([]);
    },
  );

  it('hold ordinary people: at least nine have no failing rule of anatomy, and none has swapped labels', () => {
    const found = listed.map(({ file }) => [file, failing(check(bytesOf(file)))] as const);
    expect(found.filter(([, rules]) => rules.length === 0).length, JSON.stringify(found)).toBeGreaterThanOrEqual(9);
  });

  it('stand still enough to be judged as a whole', () => {
    for (const { file } of listed) {
      expect(
        check(bytesOf(file)).rules.filter(({ reason }) => reason.includes('stand still')),
        file,
      ).toEqual([]);
    }
  });

  it.each(listed.map(({ file, vertical }) => [file, vertical] as const))(
    '%s: a marker shifted up by a known amount changes heights by that much',
    (file, vertical) => {
      const bytes = bytesOf(file);
      const before = check(bytes);
      const up = 'XYZ'.indexOf(vertical[1]!);
      for (const [label, rule, sign] of [
        ['R_LE', 'knees-level', 1],
        ['L_LM', 'ankles-level', -1],
        ['L_HEEL', 'heels-alike', -1],
        ['R_ASIS', 'asis-level', 1],
      ] as const) {
        for (const mm of [7.5, -12]) {
          const change = ruleValue(check(shifted(bytes, label, up, mm)), rule) - ruleValue(before, rule);
          expect(Math.abs(change - sign * mm), `${label} by ${mm}`).toBeLessThan(0.05);
        }
      }
    },
  );

  it.each(listed.map(({ file, vertical }) => [file, vertical] as const))(
    '%s: an ASIS 60 mm too low is found, and one of the two is to be palpated again',
    (file, vertical) => {
      const standsBent = check(bytesOf(file)).stance!.measures.some(({ status }) => status === 'fail');
      const report = check(shifted(bytesOf(file), 'L_ASIS', 'XYZ'.indexOf(vertical[1]!), -60));
      expect(failing(report)).toContain('asis-level');
      const move = report.moves.find(({ resolves }) => resolves.includes('asis-level'))!;
      // One of them stands with both knees bent, which explains no difference between the sides.
      expect(standsBent).toBe(file === 'rs06.c3d');
      expect(move.action).toBe('palpate-again');
      expect([move.marker, ...move.alternatives.map(({ marker }) => marker)]).toContain('L_ASIS');
    },
  );
});

describe('the proportions of generated adults', () => {
  // ANSUR II 2012 (Gordon et al. 2014, NATICK/TR-15/007), computed from the public data: first and 99th percentile of each
  // size as a share of stature.
  const ansur = {
    male: {
      c7HeightMm: [0.847, 0.879],
      acromialHeightMm: [0.797, 0.842],
      trochanterHeightMm: [0.481, 0.552],
      epicondyleHeightMm: [0.262, 0.299],
      lateralMalleolusHeightMm: [0.035, 0.048],
      footLengthMm: [0.143, 0.167],
      biacromialMm: [0.213, 0.26],
      ankleWidthMm: [0.038, 0.048],
    },
    female: {
      c7HeightMm: [0.84, 0.873],
      acromialHeightMm: [0.799, 0.84],
      trochanterHeightMm: [0.486, 0.554],
      epicondyleHeightMm: [0.262, 0.308],
      lateralMalleolusHeightMm: [0.032, 0.045],
      footLengthMm: [0.139, 0.164],
      biacromialMm: [0.201, 0.247],
      ankleWidthMm: [0.037, 0.046],
    },
  } as const;

  it.each(['male', 'female'] as const)('lie within what was measured: %s', (sex) => {
    for (const statureMm of [1550, 1700, 1850]) {
      const sizes = bodySizes(statureMm, sex, 30);
      for (const [size, [low, high]] of Object.entries(ansur[sex])) {
        const share = sizes[size as keyof typeof sizes] / statureMm;
        expect(share, size).toBeGreaterThan(low);
        expect(share, size).toBeLessThan(high);
      }
    }
  });

  it('show in the markers: thigh to shank as measured', () => {
    // Trochanterion to epicondyle over epicondyle to malleolus, times 100: men 97.8 (84.5 to 111.4), women 94.3 (82.1 to 109.8).
    for (const [sex, low, high] of [
      ['male', 84.5, 111.4],
      ['female', 82.1, 109.8],
    ] as const) {
      const positions = symmetricAdult({ sex });
      const height = (label: string) => positions.get(label)![2];
      const ratio = (100 * (height('R_GT') - height('R_LE'))) / (height('R_LE') - height('R_LM'));
      expect(ratio).toBeGreaterThan(low);
      expect(ratio).toBeLessThan(high);
    }
  });
});

/** What the laboratory stored beside the trial, as a sheet. */
function sheetBeside({ storedMeasurements: { statureMm, pelvisWidthMm, right, left } }: Listed): Session {
  const readings: (Measurement | null)[] = [
    reading('stature', null, statureMm),
    reading('pelvisWidth', null, pelvisWidthMm),
    ...(['right', 'left'] as const).flatMap((side) => {
      const stored = side === 'right' ? right : left;
      return [
        reading('legLength', side, stored?.legLengthMm),
        reading('kneeDiameter', side, stored?.kneeDiameterMm),
        reading('ankleDiameter', side, stored?.ankleDiameterMm),
      ];
    }),
  ];
  return { ...emptySession, measurements: readings.filter((one) => one !== null) };
}

function reading(measure: Measure, side: Measurement['side'], value: number | undefined): Measurement | null {
  return value === undefined ? null : { measure, side, value, unit: 'mm' };
}

describe.skipIf(!here)('hand measurements stored beside real trials', () => {
  const measured = listed.filter(({ storedMeasurements }) => storedMeasurements.pelvisWidthMm !== undefined);

  it('go with the markers in all six, although the ASIS markers stand up to 58 mm further apart', () => {
    expect(measured).toHaveLength(6);
    for (const trial of measured) {
      const { sheetAgainstTrial } = checkBytes(bytesOf(trial.file), sheetBeside(trial), medial20);
      const doubted = sheetAgainstTrial!.compared.filter(({ agrees }) => !agrees);
      expect(doubted, trial.file).toEqual([]);
    }
  });

  it('do not go with the markers of a person of another size', () => {
    const [child, adult] = ['rs02.c3d', 'rs11.c3d'].map((file) => measured.find((one) => one.file === file)!);
    const { sheetAgainstTrial } = checkBytes(bytesOf(adult!.file), sheetBeside(child!), medial20);
    const doubted = sheetAgainstTrial!.compared.filter(({ agrees }) => !agrees).map(({ title }) => title);
    expect(doubted).toEqual(expect.arrayContaining(['Pelvis width', 'Leg length, right', 'Leg length, left']));
  });
});
