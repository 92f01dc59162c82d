// What stands below the options in the help of the program and of each command.

export const programExamples = `
Right after the capture, before walking:
  setsquare check standing.c3d
By itself after every capture, on a page beside the patient:
  setsquare watch captures
When labels or units look odd:
  setsquare inspect standing.c3d
What a rule means and why it matters:
  setsquare explain heel-level
More about a command:
  setsquare help check`;

export const checkExamples = `
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
usable; over several trials the highest.`;

export const watchExamples = `
Beside the capture station; open the address it prints in a browser:
  setsquare watch captures
With your laboratory's marker set, and its own names for standing trials:
  setsquare watch captures --marker-set our-lab.json --names 'cal*.c3d'
A folder on a share that tells of no changes:
  setsquare watch /mnt/lab/captures --poll

Without --names: the names that the marker set states, else *static*.c3d,
*standing*.c3d, *stand*.c3d. The page answers to this machine only.

Exit code: 130 ended by Ctrl-C; 2 not usable.`;

export const inspectExamples = `
The points, their labels and where they are:
  setsquare inspect standing.c3d
For a program, one file a line:
  setsquare inspect *.c3d --format jsonl

Exit code: 0 every file could be decoded, at least in part; 2 one could not.`;

export const explainExamples = `
A rule that a report names, for both sides or for one:
  setsquare explain heel-level
  setsquare explain heel-level.left
How a marker is found, and what confirms it:
  setsquare explain R_GT
A rule or a label of your laboratory's own marker set:
  setsquare explain heel-level --marker-set our-lab.json
Everything that can be explained:
  setsquare explain

Exit code: 0 explained, 2 not known.`;

export const worksheetExamples = `
For the next patient, on paper:
  setsquare worksheet our-lab.json --output worksheet.html
With what is recorded already:
  setsquare worksheet --session session.json --output worksheet.html

Exit code: 0 printed, 2 not usable.`;

export const measurementsExamples = `
Before the markers go on:
  setsquare measurements session.json
For a program:
  setsquare measurements session.json --format json

Exit code: 0 no reading to take again, 1 one or more, 2 not usable. Readings
that are not on the sheet are told and change nothing.`;

export const blindSpotsExamples = `
What the set sees on an average adult with every marker on:
  setsquare blind-spots lower-limb-wands-22
What it sees on this patient, with the markers that were on:
  setsquare blind-spots --trial standing.c3d

Exit code: 0 printed, 2 not usable.`;

export const compareExamples = `
The capture after a correction against the one before:
  setsquare compare standing-1.c3d standing-2.c3d
The same subject marked by two assessors, for a program:
  setsquare compare assessor-a.c3d assessor-b.c3d --format json

Exit code: 0 compared, 2 not usable.`;

export const markerSetExamples = `
A set of your own, from a trial of somebody who stands, labelled or not:
  setsquare marker-set draft standing.c3d --output our-lab.json
Whether it can be used, or what is wrong with it and where:
  setsquare marker-set check our-lab.json
Its markers as a list, or as a picture:
  setsquare marker-set show our-lab.json
  setsquare marker-set show our-lab.json --format svg --output our-lab.svg

Exit code: 0 done, 2 not usable.`;

export const pageExamples = `
On this computer, until Ctrl-C:
  setsquare page
On whatever port is free:
  setsquare page --port 0`;

export const crosstalkExamples = `
After the static trial, before the markers come off: two slow knee bends, then
  setsquare crosstalk knee-bend.c3d --static standing.c3d
With what was recorded of the patient, for a program:
  setsquare crosstalk walk.c3d --static standing.c3d --session s.json --format json

Exit code: 0 nothing to adjust, 1 something to adjust, 2 not usable.`;

export const completionExamples = `
In this shell, from now on:
  source <(setsquare completion bash)
For good:
  setsquare completion bash > ~/.local/share/bash-completion/completions/setsquare
  setsquare completion zsh > ~/.zfunc/_setsquare          # with fpath+=~/.zfunc before compinit
  setsquare completion fish > ~/.config/fish/completions/setsquare.fish`;
