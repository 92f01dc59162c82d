import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { interleave } from './interleave.ts';
import { type Row, ratioRow } from './row.ts';

/** From the start of a process to its end, its report read through a pipe. */
export function startProcesses(root: string, folder: string): Row[] {
  const command = join(root, 'bin', 'setsquare.js');
  const run = (...argv: string[]) => {
    const { status, stdout, error } = spawnSync(process.execPath, argv, { cwd: root });
    if (error) throw error;
    return { status, stdout: stdout.toString() };
  };
  // One letter more than the set that ships, so that it is not known beforehand.
  const ownSet = join(folder, 'own-set.json');
  writeFileSync(ownSet, `${readFileSync(join(root, 'shared/marker-sets/lower-limb-wands-22.json'), 'utf8')} `);
  const trial = 'sample-trials/wand-forward.c3d';
  const { status, stdout } = run(command, 'check', trial);
  if (status !== 1 || !stdout.includes('Trial:')) throw new Error(`The check of ${trial} did not end as it should.`);
  const took = interleave(
    {
      floor: () => run('-e', '0'),
      version: () => run(command, '--version'),
      check: () => run(command, 'check', trial),
      session: () =>
        run(
          command,
          'check',
          'sample-trials/child-well-placed.c3d',
          '--session',
          'sample-trials/child-well-placed.session.json',
        ),
      ownSet: () => run(command, 'check', trial, '--marker-set', ownSet),
    },
    31,
    3,
  );
  return [
    ratioRow('Process: node -e 0, the floor', took.floor, took.floor, null),
    ratioRow('Process: setsquare --version', took.version, took.floor, null),
    ratioRow('Process: setsquare check', took.check, took.floor, 1.8),
    ratioRow('Process: setsquare check --session', took.session, took.floor, null),
    ratioRow("Process: setsquare check --marker-set with a laboratory's own file", took.ownSet, took.floor, null),
  ];
}
