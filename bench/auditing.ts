import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { buildDemoArchive } from '../sample-trials/demo-archive.ts';
import type { Row } from './row.ts';

const threads = 2;

interface Measured {
  readonly seconds: number;
  readonly processorSeconds: number;
  readonly peakMb: number;
}

/** Audits of generated archives of three sizes, each from nothing and again. */
export function auditArchives(root: string): Row[] {
  const folder = mkdtempSync(join(tmpdir(), 'setsquare-audit-'));
  try {
    // About a tenth of the visits are captured twice.
    const sizes = [90, 900, 9000].map((visits) => auditOne(root, join(folder, String(visits)), visits));
    const [, , large] = sizes as [Sized, Sized, Sized];
    const [small, middle] = sizes as [Sized, Sized, Sized];
    const each = ({ first, trials }: Sized): number => (1000 * first.processorSeconds) / trials;
    return [
      {
        what: `audit of ${large.trials} trials of 55 KB, a third of them with findings, ${threads} threads`,
        figure: `${large.first.seconds.toFixed(1)} s`,
        value: large.trials / large.first.seconds,
        target: { sense: 'at least', value: 400, unit: 'a second' },
      },
      {
        what: 'the same by the processor time it takes: what two free cores would do',
        figure: `${each(large).toFixed(2)} ms each`,
        value: (threads * 1000) / each(large),
        target: { sense: 'at least', value: 400, unit: 'a second' },
      },
      {
        what: 'the same again, nothing changed: share of the first in %',
        figure: `${large.again.seconds.toFixed(1)} s`,
        value: (100 * large.again.seconds) / large.first.seconds,
        target: { sense: 'at most', value: 5, unit: '%' },
      },
      {
        what: 'peak memory of it, threads included',
        figure: `${large.first.peakMb.toFixed(0)} MB`,
        value: large.first.peakMb,
        target: { sense: 'at most', value: 500, unit: 'MB' },
      },
      {
        what: `peak memory against that of ${middle.trials} trials`,
        figure: `${middle.first.peakMb.toFixed(0)} MB`,
        value: large.first.peakMb / middle.first.peakMb,
        target: null,
      },
      {
        what: `processor time a trial against that of ${middle.trials} trials`,
        figure: `${each(middle).toFixed(2)} ms each`,
        value: each(large) / each(middle),
        target: { sense: 'at most', value: 1.2, unit: 'times' },
      },
      {
        what: `processor time a trial of ${small.trials} trials, where starting and compiling weigh most`,
        figure: `${each(small).toFixed(2)} ms each`,
        value: null,
        target: null,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Sized {
  readonly trials: number;
  readonly first: Measured;
  readonly again: Measured;
}

function auditOne(root: string, folder: string, visits: number): Sized {
  let trials = 0;
  for (const { path, content } of buildDemoArchive({ visits, seed: 1 })) {
    mkdirSync(dirname(join(folder, 'archive', path)), { recursive: true });
    writeFileSync(join(folder, 'archive', path), content);
    if (path.endsWith('.c3d')) trials += 1;
  }
  const argv = ['audit', join(folder, 'archive'), '--store', join(folder, 'store'), '--threads', String(threads)];
  const run = () => measure(join(root, 'bin/setsquare.js'), [...argv, '--output', join(folder, 'audit.txt')]);
  const first = run();
  const again = run();
  rmSync(folder, { recursive: true, force: true });
  return { trials, first, again };
}

/** Runs a command and looks at its peak memory until it ends; the processor time of all threads is the system's own. */
function measure(command: string, argv: readonly string[]): Measured {
  const script = `
    const { spawn } = require('node:child_process');
    const { readFileSync } = require('node:fs');
    const started = performance.now();
    const child = spawn(process.execPath, ${JSON.stringify([command, ...argv])}, { stdio: 'ignore' });
    let peakKb = 0;
    const watch = setInterval(() => {
      try { peakKb = Math.max(peakKb, Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync('/proc/' + child.pid + '/status', 'utf8'))?.[1] ?? 0)); } catch {}
    }, 50);
    child.on('close', () => {
      clearInterval(watch);
      const seconds = (performance.now() - started) / 1000;
      const [, user, system] = /\\(.*\\) (?:\\S+ ){13}(\\d+) (\\d+)/.exec(readFileSync('/proc/self/stat', 'utf8'));
      console.log(JSON.stringify({ seconds, processorSeconds: (Number(user) + Number(system)) / 100, peakMb: peakKb / 1024 }));
    });`;
  const { stdout } = spawnSync(process.execPath, ['-e', script], { encoding: 'utf8' });
  return JSON.parse(stdout);
}
