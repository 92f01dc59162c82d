import { beforeEach, describe, expect, it } from 'vitest';
import type { Completeness } from '../../src/watch/file-state.ts';
import { ReadyFiles } from '../../src/watch/ready-files.ts';
import { FakeClock } from './fake-clock.ts';

let clock: FakeClock;
let disk: Map<string, { writing: number; completeness: Completeness }>;
let ready: [path: string, at: number, fingerprint: string][];
let locked: string[];
let gone: string[];
let files: ReadyFiles;

beforeEach(() => {
  clock = new FakeClock();
  disk = new Map();
  ready = [];
  locked = [];
  gone = [];
  files = new ReadyFiles(
    clock,
    {
      fingerprintOf: async (path) => disk.get(path)?.writing.toString() ?? null,
      completenessOf: async (path) => disk.get(path)?.completeness ?? 'gone',
    },
    {
      onReady: (path, fingerprint) => ready.push([path, clock.now(), fingerprint]),
      onGone: (path) => gone.push(path),
      onLocked: (path) => locked.push(path),
    },
  );
});

const write = (path: string, writing: number, completeness: Completeness) => disk.set(path, { writing, completeness });

describe('a file that is being written', () => {
  it('is ready a quarter of a second after the last byte, once its length is reached', async () => {
    write('a', 1, 'unfinished');
    files.await('a');
    for (let writing = 2; writing < 12; writing++) {
      await clock.pass(200);
      write('a', writing, 'unfinished');
    }
    write('a', 12, 'complete');
    const lastByte = clock.now();
    await clock.pass(5000);
    expect(ready.map(([path, , fingerprint]) => [path, fingerprint])).toEqual([['a', '12']]);
    expect(ready[0]![1] - lastByte).toBeGreaterThanOrEqual(250);
    expect(ready[0]![1] - lastByte).toBeLessThanOrEqual(500);
  });

  it('is ready three seconds after the last byte where its length is never reached', async () => {
    write('a', 1, 'unfinished');
    files.await('a');
    await clock.pass(2500);
    expect(ready).toEqual([]);
    await clock.pass(700);
    expect(ready.map(([path]) => path)).toEqual(['a']);
    expect(ready[0]![1]).toBeGreaterThanOrEqual(3000);
  });

  it('is not taken for finished in a pause of writing that is shorter', async () => {
    write('a', 1, 'unfinished');
    files.await('a');
    await clock.pass(2800);
    write('a', 2, 'unfinished');
    await clock.pass(2800);
    expect(ready).toEqual([]);
    write('a', 3, 'complete');
    await clock.pass(600);
    expect(ready.map(([, , fingerprint]) => fingerprint)).toEqual(['3']);
  });

  it('is told once, and again when it changes and is awaited again', async () => {
    write('a', 1, 'complete');
    files.await('a');
    files.await('a');
    await clock.pass(2000);
    expect(ready).toHaveLength(1);
    write('a', 2, 'complete');
    files.await('a');
    await clock.pass(2000);
    expect(ready.map(([, , fingerprint]) => fingerprint)).toEqual(['1', '2']);
  });

  it('is forgotten when it is deleted before it is finished', async () => {
    write('a', 1, 'unfinished');
    files.await('a');
    await clock.pass(500);
    disk.delete('a');
    await clock.pass(5000);
    expect([ready, gone, files.waiting, clock.timers]).toEqual([[], ['a'], [], 0]);
  });

  it('is tried until its lock is let go, and told of once', async () => {
    write('a', 1, 'locked');
    files.await('a');
    await clock.pass(60_000);
    expect([ready, locked]).toEqual([[], ['a']]);
    write('a', 1, 'complete');
    await clock.pass(1200);
    expect(ready).toHaveLength(1);
  });

  it('does not hold up others', async () => {
    write('slow', 1, 'locked');
    files.await('slow');
    for (let i = 0; i < 200; i++) {
      write(`${i}`, 1, 'complete');
      files.await(`${i}`);
    }
    await clock.pass(400);
    expect(ready.map(([path]) => path)).toEqual(Array.from({ length: 200 }, (_, i) => `${i}`));
  });

  it('is let go when the watch is closed', async () => {
    write('a', 1, 'complete');
    files.await('a');
    files.close();
    files.await('b');
    await clock.pass(5000);
    expect([ready, clock.timers]).toEqual([[], 0]);
  });
});
