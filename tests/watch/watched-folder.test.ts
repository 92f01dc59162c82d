import { beforeEach, describe, expect, it } from 'vitest';
import { WatchedFolder } from '../../src/watch/watched-folder.ts';
import { FakeClock } from './fake-clock.ts';

let clock: FakeClock;
let disk: { identity: string; trials: Map<string, string>; others: string[] } | null;
let hint: ((path: string) => void) | null;
let told: string[];
let folder: WatchedFolder;

beforeEach(() => {
  clock = new FakeClock();
  disk = { identity: '1', trials: new Map(), others: [] };
  hint = null;
  told = [];
});

function watch(existing = false) {
  folder = new WatchedFolder(
    { folder: '/lab', names: ['*static*.c3d'], existing, lookEveryMs: 2000 },
    {
      clock,
      async list() {
        if (disk === null) throw new Error('ENOENT');
        return { identity: disk.identity, trials: new Map(disk.trials), otherTrials: [...disk.others] };
      },
      fingerprintOf: async (path) => disk?.trials.get(path) ?? null,
      openHints: (_folder, onHint) => {
        hint = onHint;
        return {
          async close() {
            hint = null;
          },
        };
      },
    },
    {
      onChanged: (path) => told.push(path),
      onFolder: (state) => told.push(state),
      onOtherTrial: (path) => told.push(`other ${path}`),
    },
  );
  return folder.start();
}

const write = (path: string, fingerprint: string) => disk!.trials.set(path, fingerprint);

describe('a watched folder', () => {
  it('leaves alone what is there at the start, until it changes', async () => {
    write('/lab/static 1.c3d', 'a');
    await watch();
    await clock.pass(10_000);
    expect(told).toEqual(['there']);
    expect(folder.leftAlone).toBe(1);
    write('/lab/static 1.c3d', 'b');
    await clock.pass(2000);
    expect(told).toEqual(['there', '/lab/static 1.c3d']);
  });

  it('takes what is there at the start as new where that is wanted', async () => {
    write('/lab/static 1.c3d', 'a');
    await watch(true);
    await clock.pass(10_000);
    expect(told).toEqual(['there', '/lab/static 1.c3d']);
  });

  it('tells of a new trial at its event', async () => {
    await watch();
    write('/lab/static 1.c3d', 'a');
    hint!('/lab/static 1.c3d');
    hint!('/lab/static 1.c3d');
    hint!('/lab/walk.c3d');
    await clock.pass(1);
    expect(told).toEqual(['there', '/lab/static 1.c3d']);
  });

  it('tells of a new trial whose event was lost, within two seconds, once', async () => {
    await watch();
    write('/lab/static 1.c3d', 'a');
    await clock.pass(2000);
    await clock.pass(8000);
    expect(told).toEqual(['there', '/lab/static 1.c3d']);
  });

  it('tells again of a trial that came back after it was deleted', async () => {
    await watch();
    write('/lab/static 1.c3d', 'a');
    await clock.pass(2000);
    disk!.trials.clear();
    await clock.pass(2000);
    write('/lab/static 1.c3d', 'a');
    await clock.pass(2000);
    expect(told).toEqual(['there', '/lab/static 1.c3d', '/lab/static 1.c3d']);
  });

  it('does not tell again of a trial that was found finished as it is', async () => {
    await watch();
    write('/lab/static 1.c3d', 'half');
    await clock.pass(2000);
    write('/lab/static 1.c3d', 'whole');
    folder.settle('/lab/static 1.c3d', 'whole');
    await clock.pass(6000);
    expect(told).toEqual(['there', '/lab/static 1.c3d']);
  });

  it('may go and come back: what was there is not new, what came meanwhile is', async () => {
    write('/lab/static 1.c3d', 'a');
    await watch();
    const before = disk!;
    disk = null;
    await clock.pass(2000);
    expect(hint).toBeNull();
    disk = before;
    write('/lab/static 2.c3d', 'b');
    await clock.pass(2000);
    expect(told).toEqual(['there', 'missing', 'there', '/lab/static 2.c3d']);
    expect(hint).not.toBeNull();
  });

  it('is listened to anew when another folder takes its place between two looks', async () => {
    await watch();
    const old = hint;
    disk!.identity = '2';
    await clock.pass(2000);
    expect(hint).not.toBe(old);
    expect(told).toEqual(['there']);
  });

  it('may come only later: then everything in it is new', async () => {
    disk = null;
    await watch();
    disk = { identity: '1', trials: new Map([['/lab/static 1.c3d', 'a']]), others: [] };
    await clock.pass(2000);
    expect(told).toEqual(['missing', 'there', '/lab/static 1.c3d']);
  });

  it('names trials whose names do not fit, once each', async () => {
    disk!.others.push('/lab/old walk.c3d');
    await watch();
    disk!.others.push('/lab/walk.c3d');
    await clock.pass(6000);
    expect(told).toEqual(['there', 'other /lab/walk.c3d']);
  });

  it('is left in peace when it is closed', async () => {
    await watch();
    await folder.close();
    write('/lab/static 1.c3d', 'a');
    await clock.pass(10_000);
    expect([told, hint, clock.timers]).toEqual([['there'], null, 0]);
  });
});
