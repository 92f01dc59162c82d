import { floatParameter, textsParameter, wordParameter } from '../src/core/c3d/build-parameter.ts';
import type { C3dGroup, C3dParameter } from '../src/core/c3d/read-c3d.ts';
import type { C3dAnalogContents } from '../src/core/c3d/write-c3d.ts';
import { add, cross, dot, scale, subtract, type Vec3 } from '../src/core/geometry/vector.ts';

/** A plate let into the floor: where it lies and how its signals are stored. Lab axes, Z up; mm. */
export interface FloorPlate {
  readonly type: 1 | 2 | 3 | 4;
  readonly middle: Vec3;
  /** the plate's own axes; its z points into the floor */
  readonly x: Vec3;
  readonly y: Vec3;
  readonly lengthMm: number;
  readonly widthMm: number;
  /** from the sensors' origin to the middle of the surface; type 3: half the sensor distances, and the surface's z */
  readonly origin: Vec3;
  /** type 4: what turns stored values into forces and moments, row after row */
  readonly calibration?: readonly (readonly number[])[];
}

/** What a plate does to a person at one instant: a force on them, through a place on its surface. Lab axes; N, mm. */
export interface Push {
  readonly forceN: Vec3;
  readonly atMm: Vec3;
}

/** Values of a plate's channels in N and Nmm while it pushes, from the definitions of the moments alone. */
export function channelValues(plate: FloorPlate, push: Push): number[] {
  const z = cross(plate.x, plate.y);
  const inPlate = (vector: Vec3): Vec3 => [dot(vector, plate.x), dot(vector, plate.y), dot(vector, z)];
  const force = inPlate(push.forceN);
  const [px, py] = inPlate(subtract(push.atMm, plate.middle));
  if (plate.type === 3) return eightForces(plate.origin, force, px, py);
  const from: Vec3 = [px + plate.origin[0], py + plate.origin[1], plate.origin[2]];
  const moment = cross(from, force);
  if (plate.type === 1) return [...force, from[0], from[1], 0];
  const six = [...force, ...moment];
  return plate.calibration === undefined ? six : solve(plate.calibration, six);
}

/** Four sensors in the quadrants of the corners share the force so that force and moments come out. */
function eightForces([a, b, z]: Vec3, force: Vec3, px: number, py: number): number[] {
  const [fx, fy, fz] = force;
  // Moments about the middle of the sensors, to which only their vertical forces add.
  const [mx, my] = cross([px, py, z], force);
  const alongX = -my / a;
  const alongY = mx / b;
  const verticals = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].map(([sx, sy]) => (fz + sx! * alongX + sy! * alongY) / 4);
  return [fx * 0.4, fx * 0.6, fy * 0.7, fy * 0.3, ...verticals];
}

/** Gaussian elimination with pivots, for a square system. */
function solve(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const table = rows.map((row, index) => [...row, right[index]!]);
  for (let column = 0; column < table.length; column += 1) {
    const below = table.slice(column).sort((one, other) => Math.abs(other[column]!) - Math.abs(one[column]!));
    table.splice(column, below.length, ...below);
    const pivot = table[column]!;
    table.forEach((row, index) => {
      if (index === column) return;
      const factor = row[column]! / pivot[column]!;
      table[index] = row.map((value, at) => value - factor * pivot[at]!);
    });
  }
  return table.map((row, index) => row.at(-1)! / row[index]!);
}

/** Stored values are these times the true ones, plus the offset: as a converter of 12 bits gives them. */
const STORED_OFFSET = 2048;
const STORED_SCALES = { force: -0.4, moment: -120, place: 0.5 } as const;

const channelUnits: Readonly<Record<FloorPlate['type'], readonly ('N' | 'Nmm' | 'mm')[]>> = {
  1: ['N', 'N', 'N', 'mm', 'mm', 'Nmm'],
  2: ['N', 'N', 'N', 'Nmm', 'Nmm', 'Nmm'],
  3: ['N', 'N', 'N', 'N', 'N', 'N', 'N', 'N'],
  4: ['N', 'N', 'N', 'Nmm', 'Nmm', 'Nmm'],
};
const kindOf = { N: 'force', Nmm: 'moment', mm: 'place' } as const;

/**
 * Analog data and parameter groups of plates for writeC3d.
 * @param values for each frame, each sample: the values of all channels, plate after plate
 * @param zeroFrames first and last frame in which nobody stands on them, from 1; 0, 0 for none
 */
export function recordPlates(
  plates: readonly FloorPlate[],
  values: readonly (readonly number[])[],
  samplesPerFrame: number,
  zeroFrames: readonly [number, number],
): { analog: C3dAnalogContents; groups: C3dGroup[] } {
  const units = plates.flatMap(({ type }) => channelUnits[type]);
  const scales = units.map((unit) => STORED_SCALES[kindOf[unit]]);
  const stored = values.flatMap((row) => row.map((value, channel) => value / scales[channel]! + STORED_OFFSET));
  const labels = plates.flatMap(({ type }, plate) => channelUnits[type].map((_, i) => `plate${plate + 1}.${i + 1}`));
  return {
    analog: { labels, samplesPerFrame, values: stored },
    groups: [
      group('ANALOG', [
        sized('SCALE', 'float', [scales.length], scales),
        sized(
          'OFFSET',
          'int16',
          [scales.length],
          scales.map(() => STORED_OFFSET),
        ),
        textsParameter('UNITS', units),
        floatParameter('GEN_SCALE', 1),
      ]),
      group('FORCE_PLATFORM', [
        wordParameter('USED', plates.length),
        sized(
          'TYPE',
          'int16',
          [plates.length],
          plates.map(({ type }) => type),
        ),
        sized('ZERO', 'int16', [2], zeroFrames),
        sized('CORNERS', 'float', [3, 4, plates.length], plates.flatMap(cornersOf)),
        sized(
          'ORIGIN',
          'float',
          [3, plates.length],
          plates.flatMap(({ origin }) => origin),
        ),
        sized('CHANNEL', 'int16', [8, plates.length], channelNumbers(plates)),
        ...(plates.some(({ calibration }) => calibration !== undefined)
          ? [sized('CAL_MATRIX', 'float', [6, 6, plates.length], plates.flatMap(calibrationOf))]
          : []),
      ]),
    ],
  };
}

/** Corners of the quadrants +x +y, -x +y, -x -y, +x -y. */
function cornersOf({ middle, x, y, lengthMm, widthMm }: FloorPlate): number[] {
  return [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].flatMap(([sx, sy]) => add(middle, add(scale(x, (sx! * lengthMm) / 2), scale(y, (sy! * widthMm) / 2))));
}

/** Eight rows, the last two of which only type 3 fills. */
function channelNumbers(plates: readonly FloorPlate[]): number[] {
  let last = 0;
  return plates.flatMap(({ type }) =>
    Array.from({ length: 8 }, (_, row) => (row < channelUnits[type].length ? ++last : 0)),
  );
}

/** Column after column, as the format has it; plates without one leave their place empty. */
function calibrationOf({ calibration }: FloorPlate): number[] {
  return Array.from({ length: 36 }, (_, at) => (calibration ?? [])[at % 6]?.[Math.floor(at / 6)] ?? 0);
}

function sized(
  name: string,
  type: 'float' | 'int16',
  dimensions: readonly number[],
  values: readonly number[],
): C3dParameter {
  return { name, description: '', type, dimensions, values };
}

function group(name: string, parameters: readonly C3dParameter[]): C3dGroup {
  return { name, description: '', parameters: new Map(parameters.map((one) => [one.name, one])) };
}
