import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { averagePoints } from '../src/core/c3d/average-points.ts';
import { readC3d } from '../src/core/c3d/read-c3d.ts';
import { averageFromDisk } from './average-from-disk.ts';
import { barePassFromDisk, barePassInMemory } from './bare-pass.ts';
import { interleave, median } from './interleave.ts';
import { type FormatName, formats, LARGE, madeContents, madeTrial, SMALL } from './made-trials.ts';
import { type Row, ratioRow } from './row.ts';

const rounds = 15;
const warmUp = 4;

/** 80 points in 60,000 frames, 77 MB as floats: from disk (out of the system's cache) and in memory. */
export function readLargeTrials(folder: string, memoryChild: string): Row[] {
  const contents = madeContents(LARGE);
  const names = Object.keys(formats) as FormatName[];
  const path = (name: FormatName) => join(folder, `${names.indexOf(name)}.c3d`);
  for (const name of names) writeFileSync(path(name), madeTrial(contents, name));

  const plain = path('Intel, floats');
  const { dataOffset } = readC3d(readFileSync(plain));
  const { pointCount, frameCount } = LARGE;
  refuseOtherMeans(averageFromDisk(plain).means, barePassFromDisk(plain, dataOffset, pointCount, frameCount));
  const fromDisk = interleave(
    {
      floor: () => barePassFromDisk(plain, dataOffset, pointCount, frameCount),
      ...Object.fromEntries(names.map((name) => [name, () => averageFromDisk(path(name))])),
    } as Record<FormatName | 'floor', () => unknown>,
    rounds,
    warmUp,
  );
  const bytes = readFileSync(plain);
  const inMemory = interleave(
    {
      floor: () => barePassInMemory(bytes, dataOffset, pointCount, frameCount),
      averaged: () => averagePoints(readC3d(bytes)),
      hashed: () => createHash('sha256').update(bytes).digest('hex'),
    },
    rounds,
    warmUp,
  );
  return [
    ratioRow('77 MB from disk: bare pass, the floor', fromDisk.floor, fromDisk.floor, null),
    ...names.map((name, index) =>
      ratioRow(`77 MB from disk, ${name}: every point averaged`, fromDisk[name], fromDisk.floor, index === 0 ? 1.2 : 4),
    ),
    ratioRow('77 MB in memory: bare pass, the floor', inMemory.floor, inMemory.floor, null),
    ratioRow('77 MB in memory: every point averaged', inMemory.averaged, inMemory.floor, 1.7),
    ratioRow('77 MB in memory: SHA-256, apart from all the rest', inMemory.hashed, inMemory.floor, null),
    ...peakMemory(memoryChild, plain),
  ].map((row) => (row.what.includes('integers') ? { ...row, what: row.what.replace('77 MB', '39 MB') } : row));
}

/** Largest resident size of a process of its own that averages the file, and of one that does nothing. */
function peakMemory(child: string, trial: string): Row[] {
  const peakMb = (...argv: string[]) =>
    median(
      Array.from({ length: 5 }, () => {
        const { stdout, stderr } = spawnSync(process.execPath, [child, ...argv], { encoding: 'utf8' });
        if (stderr !== '') throw new Error(stderr);
        return Number(stdout) / 1024;
      }),
    );
  const empty = peakMb();
  const averaging = peakMb(trial);
  const figure = (mb: number) => `${mb.toFixed(1)} MB`;
  return [
    { what: 'Peak memory of a process that does nothing', figure: figure(empty), value: null, target: null },
    {
      what: `Peak memory of one that averages the 77 MB from disk, ${figure(averaging - empty)} of it its own`,
      figure: figure(averaging),
      value: averaging,
      target: { sense: 'at most', value: 70, unit: 'MB' },
    },
  ];
}

/** 22 points in 500 frames: parameters read, points averaged; many times in a round, for the clock. */
export function readSmallTrial(): Row[] {
  const bytes = madeTrial(madeContents(SMALL), 'Intel, floats');
  const { dataOffset } = readC3d(bytes);
  const { pointCount, frameCount } = SMALL;
  const times = 200;
  const repeated = (read: () => unknown) => () => {
    for (let time = 0; time < times; time++) read();
  };
  const took = interleave(
    {
      floor: repeated(() => barePassInMemory(bytes, dataOffset, pointCount, frameCount)),
      averaged: repeated(() => averagePoints(readC3d(bytes))),
    },
    25,
    10,
  );
  return [
    ratioRow('22 points, 500 frames in memory: bare pass, the floor', took.floor / times, took.floor / times, null),
    ratioRow('22 points, 500 frames: decoded and averaged', took.averaged / times, took.floor / times, 2.5),
  ];
}

function refuseOtherMeans(means: Float64Array, expected: Float64Array): void {
  const worst = means.reduce((most, mean, index) => Math.max(most, Math.abs(mean - expected[index]!)), 0);
  if (!(worst < 1e-9)) throw new Error(`The means differ from the bare pass by ${worst}.`);
}
