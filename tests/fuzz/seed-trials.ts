import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { type FloorPlate, recordPlates } from '../../sample-trials/force-plates.ts';
import { floatParameter, textParameter, wordParameter } from '../../src/core/c3d/build-parameter.ts';
import { type C3dFile, readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { type C3dContents, writeC3d } from '../../src/core/c3d/write-c3d.ts';

const samples = new URL('../../sample-trials/', import.meta.url);
const outside = new URL('../../../shared/c3d-samples/', import.meta.url);
const fewFrames = 4;

export const processors = ['intel', 'dec', 'mips'] as const;
export const numberFormats = ['float', 'int'] as const;

/** What the sample trials hold, cut to their first frames so that a case takes about a millisecond. */
export const people: readonly C3dContents[] = trialsIn(samples).map(({ bytes }) => firstFrames(readC3d(bytes)));

/** Small files that are right: bytes to damage. */
export const seedTrials: readonly Uint8Array[] = [
  ...people.map((contents) => writeC3d(contents)),
  ...processors.flatMap((processor) =>
    numberFormats.map((numberFormat) => writeC3d({ ...withOddGroups(people[0]!), processor, numberFormat })),
  ),
  ...processors.flatMap((processor) =>
    numberFormats.map((numberFormat) => writeC3d({ ...onPlates(people[0]!), processor, numberFormat })),
  ),
];

/** Hardly anything but header and parameters, so that the damage hits those and a case takes no time. */
export const smallTrials: readonly Uint8Array[] = processors.flatMap((processor) =>
  numberFormats.flatMap((numberFormat) =>
    [fewPoints(), onPlates(fewPoints())].map((contents) => writeC3d({ ...contents, processor, numberFormat })),
  ),
);

/** Whole files, which take longer: the sample trials, and public samples where they lie beside this folder. */
export const wholeTrials: readonly Uint8Array[] = [
  ...trialsIn(samples),
  ...(existsSync(outside) ? readdirSync(outside, { withFileTypes: true }) : []).flatMap((entry) =>
    entry.isDirectory() ? trialsIn(new URL(`${entry.name}/`, outside)) : [],
  ),
].map(({ bytes }) => bytes);

function trialsIn(folder: URL): { bytes: Uint8Array }[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.c3d'))
    .sort()
    .map((name) => ({ bytes: new Uint8Array(readFileSync(new URL(name, folder))) }));
}

function firstFrames(file: C3dFile): C3dContents {
  const { values, pointCount } = readPoints(file);
  const { rateHz, units, labels, screen } = file;
  return {
    rateHz,
    units,
    labels,
    pointCount,
    frameCount: fewFrames,
    values: values.slice(0, fewFrames * pointCount * 4),
    screen: { x: screen.x ?? '+X', y: screen.y ?? '+Z' },
  };
}

/** The whole files again, cut after their first two frames where they can be read. */
export const cutTrials: readonly Uint8Array[] = wholeTrials.map((bytes) => {
  try {
    const { dataOffset, frameStride } = readC3d(bytes);
    return bytes.slice(0, dataOffset + 2 * frameStride);
  } catch {
    return bytes.slice(0, 4096);
  }
});

/** Frame numbers beyond a word, empty dimensions, text of many lines, a group that nobody knows. */
function withOddGroups(contents: C3dContents): C3dContents {
  return {
    ...contents,
    firstFrame: 70_000,
    analog: { labels: ['plate x', 'plate z'], samplesPerFrame: 3, values: new Float32Array(fewFrames * 6).fill(7) },
    groups: [
      {
        name: 'ODD',
        description: 'what real files hold',
        parameters: new Map([
          ['EMPTY', { name: 'EMPTY', description: '', type: 'float', dimensions: [0], values: [] }],
          [
            'CUBE',
            { name: 'CUBE', description: '', type: 'byte', dimensions: [2, 2, 2], values: [0, 1, 2, 3, 4, 5, 6, 7] },
          ],
          ['NOTHING', { name: 'NOTHING', description: '', type: 'char', dimensions: [0, 3], values: ['', '', ''] }],
          ['LINES', textParameter('LINES', 'first\nsecond')],
          ['LARGEST', floatParameter('LARGEST', 3.4e38)],
          ['WORD', wordParameter('WORD', 65_535)],
        ]),
      },
    ],
  };
}

/** Four plates, one of each type, side by side across the room: the damage hits analog and plate parameters too. */
function onPlates(contents: C3dContents): C3dContents {
  const plates = ([1, 2, 3, 4] as const).map(
    (type): FloorPlate => ({
      type,
      middle: [420, -730 + 300 * type, 0],
      x: [0, 1, 0],
      y: [1, 0, 0],
      lengthMm: 300,
      widthMm: 900,
      origin: type === 3 ? [120, 200, -50] : [1, 2, -40],
      ...(type === 4 ? { calibration: Array.from({ length: 6 }, (_, row) => identityRow(row)) } : {}),
    }),
  );
  const samplesPerFrame = 2;
  const rows = Array.from({ length: contents.frameCount * samplesPerFrame }, (_, row) =>
    Array.from({ length: 26 }, (_, channel) => (channel % 6 === 2 ? -300 - row : channel)),
  );
  const { analog, groups } = recordPlates(plates, rows, samplesPerFrame, [1, 2]);
  return { ...contents, analog, groups };
}

function identityRow(row: number): number[] {
  return Array.from({ length: 6 }, (_, column) => (row === column ? 1 : 0));
}

function fewPoints(): C3dContents {
  return {
    rateHz: 100,
    units: 'mm',
    labels: ['R_ASIS', 'L_ASIS'],
    pointCount: 2,
    frameCount: 3,
    values: Float32Array.from({ length: 24 }, (_, index) => (index % 4 === 3 ? 0 : index * 10)),
  };
}
