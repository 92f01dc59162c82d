import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { displace } from '../../sample-trials/plant-fault.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { checkTrialFile } from '../../src/node/check-trial-file.ts';
import { systemClock } from '../../src/watch/clock.ts';
import { filesOnDisk } from '../../src/watch/file-state.ts';
import { eventHints, noHints, type OpenHints } from '../../src/watch/folder-hints.ts';
import { listTrials } from '../../src/watch/list-trials.ts';
import { startBuiltThread, TrialChecker } from '../../src/watch/trial-checker.ts';
import { usualNames } from '../../src/watch/trial-names.ts';
import { TrialWatch } from '../../src/watch/trial-watch.ts';

import { wands22 } from '../support/shipped-marker-sets.ts';
import { standsAgain } from '../support/stand-again.ts';
import { stillContents } from '../support/still-trial.ts';

let parent: string;
let folder: string;
let watch: TrialWatch;
let told: string[];
let close: () => Promise<void>;

beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'setsquare-watch-'));
  folder = join(parent, 'visit');
  mkdirSync(folder);
  told = [];
  close = async () => {};
});
afterEach(async () => {
  await close();
  rmSync(parent, { recursive: true, force: true });
});

async function start(openHints: OpenHints = eventHints, check = checkHere, lookEveryMs = 300) {
  watch = new TrialWatch(
    { folder, names: usualNames, existing: false, lookEveryMs },
    { clock: systemClock, files: filesOnDisk, list: () => listTrials(folder, usualNames), openHints, check },
    {
      onCapture: ({ number, path, report }, what) =>
        told.push(`${what} ${number} ${path.slice(folder.length + 1)} ${report.verdict}`),
      onFolder: (state) => told.push(state),
      onLocked: (path) => told.push(`locked ${path}`),
      onOtherTrial: () => told.push('other'),
      onState: () => {},
    },
  );
  close = () => watch.close();
  await watch.start();
}

const checkHere = (path: string) =>
  checkTrialFile(path, (bytes, source) => checkTrial(bytes, wands22, emptySession, source));

/** The same person standing for the so many-th time, with the left heel marker so much too high. */
function trial(heelMm: number, time = 0): Uint8Array {
  return writeC3d(stillContents(displace(standsAgain(3, time), 'L_HEEL', { up: heelMm }), { frames: 40 }));
}

const put = (name: string, bytes: Uint8Array) => writeFileSync(join(folder, name), bytes);

/** Waits until so many things were told; what comes too much is seen by a little more patience. */
async function untilTold(count: number, afterwardsMs = 0): Promise<void> {
  for (let waited = 0; told.length < count && waited < 10_000; waited += 20) await pause(20);
  await pause(afterwardsMs);
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}

describe.each([
  ['events', eventHints],
  ['looking only', noHints],
] as const)('a folder watched by %s', (_, hints) => {
  it('brings a trial that is written in pieces, once it is whole', async () => {
    await start(hints);
    const bytes = trial(-20);
    for (let at = 0; at < bytes.length; at += 3000) {
      appendFileSync(join(folder, 'static.c3d'), bytes.subarray(at, at + 3000));
      await pause(60);
    }
    await untilTold(2, 500);
    expect(told).toEqual(['there', 'new 1 static.c3d adjust']);
  });

  it('brings each of several captures, in subfolders too, and passes over walking trials', async () => {
    await start(hints);
    put('walk 01.c3d', trial(0));
    put('static 01.c3d', trial(-20));
    await untilTold(3);
    mkdirSync(join(folder, 'second'));
    put('second/static 02.c3d', trial(-10, 1));
    await untilTold(4, 400);
    expect(told.toSorted()).toEqual([
      'new 1 static 01.c3d adjust',
      'new 2 second/static 02.c3d adjust',
      'other',
      'there',
    ]);
    const [, second] = watch.state.captures;
    expect(Math.abs(second!.against!.comparison.steps[0]!.movedMm! - 10)).toBeLessThan(1.5);
    expect(second!.corrections).toBe(1);
  });

  it('outlives the folder, which comes back with more in it', async () => {
    put('static 00.c3d', trial(1));
    await start(hints);
    renameSync(folder, `${folder}-kept`);
    await untilTold(2);
    renameSync(`${folder}-kept`, folder);
    put('static 01.c3d', trial(-20, 1));
    await untilTold(4, 600);
    expect(told).toEqual(['there', 'missing', 'there', 'new 1 static 01.c3d adjust']);
  });
});

describe('a trial file', () => {
  it('may be replaced by another capture of the same name', async () => {
    await start();
    put('static.c3d', trial(-20));
    await untilTold(2);
    writeFileSync(join(folder, 'next'), trial(0, 1));
    renameSync(join(folder, 'next'), join(folder, 'static.c3d'));
    await untilTold(3, 400);
    expect(told).toEqual(['there', 'new 1 static.c3d adjust', 'new 2 static.c3d ready']);
  });

  it('that stays cut short is told after three seconds, and replaced by the whole one', async () => {
    await start();
    const bytes = trial(-20);
    put('static.c3d', bytes.subarray(0, bytes.length - 2000));
    await untilTold(2);
    expect(told[1]).toBe('new 1 static.c3d adjust');
    expect(watch.state.captures[0]!.report.problems.map(({ code }) => code)).toContain('file-truncated');
    put('static.c3d', bytes);
    await untilTold(3, 400);
    expect(told).toEqual(['there', 'new 1 static.c3d adjust', 'replaced 1 static.c3d adjust']);
    expect(watch.state.captures[0]!.report.problems).toEqual([]);
  });

  it('may be truncated, deleted and written again', async () => {
    await start();
    put('static.c3d', trial(-20));
    await untilTold(2);
    truncateSync(join(folder, 'static.c3d'), 100);
    await pause(200);
    rmSync(join(folder, 'static.c3d'));
    await pause(700);
    expect([told.length, watch.state.coming]).toEqual([2, 0]);
    put('static.c3d', trial(-20));
    await untilTold(3, 300);
    expect(told[2]).toBe('copy 1 static.c3d adjust');
  });

  it('may be a link, also to a folder that leads back', async () => {
    const elsewhere = join(parent, 'elsewhere.c3d');
    writeFileSync(elsewhere, trial(-20));
    symlinkSync(folder, join(folder, 'round'));
    await start();
    symlinkSync(elsewhere, join(folder, 'static.c3d'));
    symlinkSync(join(parent, 'nowhere.c3d'), join(folder, 'static 2.c3d'));
    await untilTold(2, 800);
    expect(told).toEqual(['there', 'new 1 static.c3d adjust']);
  });

  it('that is no C3D is told with its reason', async () => {
    await start();
    put('static.c3d', new TextEncoder().encode('not a trial'.repeat(100)));
    await untilTold(2);
    expect(told[1]).toBe('new 1 static.c3d not-assessable');
  });
});

describe('two hundred captures written at once', () => {
  it('are each checked by the worker, none lost and none doubled', async () => {
    const inputs = { markerSet: wands22, session: emptySession, norms: null };
    const checker = new TrialChecker(inputs, startBuiltThread, systemClock);
    await start(eventHints, (path) => checker.check(path), 2000);
    const closeWatch = close;
    close = async () => {
      await closeWatch();
      await checker.close();
    };
    const names = Array.from({ length: 200 }, (_, i) => `static ${String(i).padStart(3, '0')}.c3d`);
    names.forEach((name, i) => put(name, trial(-20, i)));
    await untilTold(201, 500);
    expect(told).toHaveLength(201);
    expect(watch.state.captures.map(({ path }) => path.slice(folder.length + 1)).toSorted()).toEqual(names);
    expect(watch.state.captures.map(({ number }) => number)).toEqual(names.map((_, i) => i + 1));
  });
});
