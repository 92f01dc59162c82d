import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standingLoad } from '../../../src/core/force-plates/standing-load.ts';
import { centres, leftFoot, onPlates, rightFoot, standing, twoPlates } from './person-on-plates.ts';

const codes = (load: ReturnType<typeof standingLoad>) => load!.problems.map(({ code }) => code);

describe('a planted mass and load share', () => {
  const types = fc.constantFrom(1, 2, 3, 4) as fc.Arbitrary<1 | 2 | 3 | 4>;

  it('come out within 0.5 %, the centres of pressure within a millimetre, whatever the types and processors', () => {
    fc.assert(
      fc.property(
        fc.tuple(types, types),
        fc.double({ min: 15, max: 150, noNaN: true }),
        fc.double({ min: 0.2, max: 0.8, noNaN: true }),
        fc.constantFrom('intel', 'dec', 'mips'),
        fc.double({ min: -8, max: 8, noNaN: true }),
        fc.boolean(),
        (pair, massKg, rightShare, processor, drift, asAction) => {
          // The place that type 1 gives is not zeroed, so that it must not drift.
          const plates = twoPlates(pair);
          const file = onPlates({
            plates,
            massKg,
            rightShare,
            drift: pair.includes(1) ? 0 : drift,
            asAction,
            contents: { processor },
          });
          const load = standingLoad(file, { ...standing, massKg })!;
          expect(codes(load)).toEqual([]);
          expect(Math.abs(load.massKg! / massKg - 1)).toBeLessThan(0.005);
          expect(load.loadShare).toBeCloseTo(rightShare, 3);
          load.plates.forEach((plate, i) => {
            plate.load!.centreMm!.forEach((value, axis) =>
              expect(Math.abs(value - centres[i]![axis]!)).toBeLessThan(1),
            );
            expect(plate.load!.zeroed).toBe(true);
            expect(plate.outsideFootMm).toBe(0);
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it('come out of integers, signed and unsigned', () => {
    const plates = twoPlates([2, 3]);
    for (const format of ['SIGNED', 'UNSIGNED']) {
      const file = onPlates({ plates, massKg: 70, rightShare: 0.6, contents: { numberFormat: 'int', scale: 0.1 } });
      file.groups.get('ANALOG')!.parameters.set('FORMAT', {
        name: 'FORMAT',
        description: '',
        type: 'char',
        dimensions: [format.length],
        values: [format],
      });
      const load = standingLoad(file, standing)!;
      expect(Math.abs(load.massKg! / 70 - 1)).toBeLessThan(0.005);
      expect(load.loadShare).toBeCloseTo(0.6, 2);
    }
  });

  it('come out of a trial that begins with the person on the plates: the baseline would take their weight away', () => {
    const load = standingLoad(onPlates({ plates: twoPlates([2, 4]), massKg: 60, rightShare: 0.5, from: 0 }), standing)!;
    expect(load.massKg).toBeCloseTo(60, 1);
    expect(load.plates.map((plate) => plate.load!.zeroed)).toEqual([false, false]);
  });
});

describe('a load share is withheld, with its reason', () => {
  const file = onPlates({ plates: twoPlates([2, 2]), massKg: 60, rightShare: 0.55 });

  it.each([
    ['holds on', { ...standing, supported: true }],
    ['whole on a plate each', { ...standing, feet: [rightFoot, { ...leftFoot, heel: [0, -20, 40] }] }],
    ['whole on a plate each', { ...standing, feet: [rightFoot, { ...leftFoot, forefoot: [380, 120, 40] }] }],
    ['do not stand on plates', { ...standing, feet: [rightFoot] }],
    ['recorded mass', { ...standing, massKg: 70 }],
  ] as const)('%s', (reason, person) => {
    const load = standingLoad(file, person as typeof standing)!;
    expect(load.loadShare).toBeNull();
    expect(load.loadShareReason).toContain(reason);
  });

  it('both feet on one plate give the mass and no share', () => {
    const [right, left] = twoPlates([2, 2]);
    const wide = { ...right, middle: [100, 0, 0] as [number, number, number], lengthMm: 700 };
    const away = { ...left, middle: [2000, 0, 0] as [number, number, number] };
    const load = standingLoad(
      onPlates({
        plates: [wide, away],
        massKg: 60,
        rightShare: 1,
        centres: [
          [80, 0, 0],
          [2000, 0, 0],
        ],
      }),
      { ...standing, massKg: 60.4 },
    )!;
    expect(load.massKg).toBeCloseTo(60, 1);
    expect(load.loadShare).toBeNull();
    expect(load.plates.map(({ feet }) => feet)).toEqual([['right', 'left'], []]);
    expect(codes(load)).toEqual([]);
  });
});

describe('problems', () => {
  it('the recorded mass is held against what the plates carry, from 1.5 kg and 3 % on', () => {
    const file = onPlates({ plates: twoPlates([2, 3]), massKg: 60, rightShare: 0.5 });
    for (const [massKg, expected] of [
      [61.4, []],
      [58.2, ['plates-against-mass']],
      [62.5, ['plates-against-mass']],
      [null, []],
    ] as const) {
      expect(codes(standingLoad(file, { ...standing, massKg }))).toEqual(expected);
    }
    expect(codes(standingLoad(file, { ...standing, massKg: 80, supported: true }))).toEqual([]);
  });

  it('a centre of pressure outside the foot doubts the plate first', () => {
    const [right, left] = twoPlates([2, 2]);
    // Recorded where the plate is; the file says that it lies 90 mm further back.
    const file = onPlates({ plates: [right, left], massKg: 60, rightShare: 0.5 });
    const corners = file.groups.get('FORCE_PLATFORM')!.parameters.get('CORNERS')!.values as number[];
    for (let at = 0; at < 12; at += 3) corners[at]! -= 90;
    const load = standingLoad(file, standing)!;
    expect(codes(load)).toEqual(['plate-position-doubtful']);
    expect(load.problems[0]!.message).toBe(
      'On plate 1 the right foot presses 20 mm outside where its markers say it stands.',
    );
    expect(load.problems[0]!.remedy).toMatch(/^First doubt where plate 1 lies/);
    expect(load.loadShareReason).toBe('where the plates lie is in doubt');
  });

  it('a plate that carries somebody where no foot is, is doubted too', () => {
    const [right, left] = twoPlates([2, 2]);
    const file = onPlates({ plates: [right, left], massKg: 60, rightShare: 0.5, from: 0 });
    const corners = file.groups.get('FORCE_PLATFORM')!.parameters.get('CORNERS')!.values as number[];
    for (let at = 12; at < 24; at += 3) corners[at]! += 1500;
    const load = standingLoad(file, standing)!;
    expect(load.problems.map(({ message }) => message)).toEqual(['Plate 2 carries 294 N and no foot is over it.']);
    expect(load.massKg).toBeNull();
  });

  it.each([
    ['TYPE', [2, 11], 'plate 2 because its type is 11'],
    ['TYPE', [2], 'plate 2 because the file states no type'],
    ['CHANNEL', [1, 2, 3, 4, 5, 6, 0, 0, 7, 8, 9, 10, 11, 99, 0, 0], 'plate 2 because it names channel 99'],
    [
      'CHANNEL',
      [1, 2, 3, 4, 5, 5, 0, 0, 7, 8, 9, 10, 11, 12, 0, 0],
      'plate 1 because one of its channels is named twice',
    ],
    ['CORNERS', [1, 2, 3], 'plate 1 because its four corners are not recorded'],
    ['CORNERS', new Array(24).fill(0), 'plate 1 because its four corners span no surface'],
    ['ORIGIN', [0, 0, -40], 'plate 2 because FORCE_PLATFORM:ORIGIN'],
    ['TYPE', [4, 2], 'plate 1 because type 4 needs a calibration matrix'],
  ])('%s %o is told, and nothing is guessed', (name, values, expected) => {
    const file = onPlates({ plates: twoPlates([2, 2]), massKg: 60, rightShare: 0.5 });
    const parameter = file.groups.get('FORCE_PLATFORM')!.parameters.get(name)!;
    file.groups.get('FORCE_PLATFORM')!.parameters.set(name, { ...parameter, values });
    const load = standingLoad(file, standing)!;
    expect(codes(load)).toContain('plate-unusable');
    expect(load.problems[0]!.message).toContain(expected);
    expect(load.loadShare).toBeNull();
  });

  it('volts are no newtons, unless a calibration matrix makes them so', () => {
    const file = onPlates({ plates: twoPlates([2, 4]), massKg: 60, rightShare: 0.5 });
    const units = file.groups.get('ANALOG')!.parameters.get('UNITS')!;
    file.groups.get('ANALOG')!.parameters.set('UNITS', { ...units, values: new Array(12).fill('V') });
    const load = standingLoad(file, standing)!;
    expect(load.plates.map(({ reason }) => reason)).toEqual(['its channels are stored in volts, not as forces', '']);
  });

  it('a plate on edge is not read', () => {
    const [right, left] = twoPlates([2, 2]);
    const load = standingLoad(
      onPlates({ plates: [{ ...right, y: [0, 0, 1] }, left], massKg: 60, rightShare: 0.5 }),
      standing,
    )!;
    expect(load.plates[0]!.reason).toBe('its four corners do not lie level');
  });

  it('a file without plates says nothing', () => {
    const file = onPlates({ plates: twoPlates([2, 2]), massKg: 60, rightShare: 0.5 });
    file.groups.delete('FORCE_PLATFORM');
    expect(standingLoad(file, standing)).toBeNull();
  });
});
