import { describe, expect, it } from 'vitest';
import type { Io } from '../../src/cli/io.ts';
import { runInProcess } from './run-in-process.ts';

// Compiles only while the process itself fits what a command asks for.
const fits: Io = process;

describe('help', () => {
  it('teaches check by example', async () => {
    const { stdout } = await runInProcess(['check', '--help']);
    expect(stdout).toBe(`Usage: setsquare check [options] <TRIAL.c3d...>

Checks each standing trial against a marker set and says what to do before
walking.

Arguments:
  TRIAL.c3d                 standing trials to check

Options:
  --marker-set <NAME|FILE>  marker set that ships, or a .json file (default:
                            "lower-limb-wands-22")
  --session <FILE>          what was recorded of the patient (.json)
  --norms <FILE>            how well-marked people differ, to weigh which marker
                            is off
  --frames <FIRST-LAST>     judge these frames only, as the file numbers them
  --format <FORMAT>         what is printed: text, json, jsonl, html or note
                            (default: "text")
  --output <PATH>           write the report to a file, whole or not at all
  --show-names              name the files on a page (html), which names none
                            otherwise
  --color                   colour the text, whatever the terminal says
  --no-color                never colour the text
  --help                    print this help

Global Options:
  --version                 print the version
  --debug                   print where a fault arose

The trial that was just captured:
  setsquare check standing.c3d
With your laboratory's marker set and what was recorded of the patient:
  setsquare check standing.c3d --marker-set our-lab.json --session session.json
Only the frames in which the person stood still:
  setsquare check standing.c3d --frames 120-320
A page to look at from beside the patient, and to print:
  setsquare check standing.c3d --format html --output report.html
A paragraph for the report's reader, of what stays as it is:
  setsquare check standing.c3d --session session.json --format note
For a program, one report a line:
  setsquare check *.c3d --format jsonl --output reports.jsonl

Exit code: 0 ready to walk, 1 something to adjust, 2 not assessable or not
usable; over several trials the highest.
`);
  });

  it('names every command', async () => {
    const { stdout } = await runInProcess(['--help']);
    expect(stdout).toMatch(/^ {2}check <TRIAL\.c3d\.\.\.> /m);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/^ {2}inspect <TRIAL\.c3d\.\.\.> /m);
  });

  it('prints the version of the package', async () => {
    const { version } = (await import('../../package.json', { with: { type: 'json' } })).default;
    expect((await runInProcess(['--version'])).stdout).toBe(`${version}\n`);
    expect(fits.stdout).toBe(process.stdout);
  });
});
