import { type C3dWarningCode, c3dWarningMeanings } from '../src/core/c3d/c3d-warnings.ts';

export const c3dWarningsPageUrl = new URL('../docs/c3d-warnings.md', import.meta.url);

const nothing = 'Nothing, if frames and markers are as captured.';
const compare = 'Compare what `inspect` prints with the capture; then export the trial again if they differ.';
const again = 'Copy or export the trial again: part of it is lost.';
const correctLabels = 'Correct the labels in the capture software and process the trial again.';
const state = 'Let the capture software write it; until then check that times and sizes in the report are plausible.';

/** What to do about each warning; the meanings stand beside the reader. */
const whatToDo: Readonly<Record<C3dWarningCode, string>> = {
  'processor-unknown': compare,
  'parameters-beyond-file': again,
  'parameter-block-missing': compare,
  'parameters-unterminated': nothing,
  'parameters-broken-off': again,
  'parameter-unreadable': compare,
  'parameter-repeated': compare,
  'group-missing': nothing,
  'point-count-disagrees': compare,
  'frame-count-disagrees': compare,
  'frame-count-missing': nothing,
  'frame-count-at-limit': 'Cut the trial: a standing trial needs a few seconds.',
  'first-frame-disagrees': 'Nothing, unless `--frames` is used: check which frame the numbers mean.',
  'data-start-disagrees': compare,
  'data-start-missing': nothing,
  'data-truncated': again,
  'no-points': 'Export the trial with its marker trajectories.',
  'scale-disagrees': compare,
  'scale-missing': compare,
  'number-format-disagrees': compare,
  'rate-disagrees': 'Check the frame rate in the report against the capture.',
  'rate-missing': state,
  'units-missing': state,
  'labels-missing': correctLabels,
  'labels-more-than-points': correctLabels,
  'labels-fewer-than-points': correctLabels,
  'labels-blank': correctLabels,
  'labels-repeated': correctLabels,
  'analog-count-disagrees': nothing,
  'residual-words-oversized': nothing,
  'every-point-invalid': 'Process the trial again: no marker was reconstructed, or all were marked invalid.',
};

/** The whole page, as it stands in docs. */
export function c3dWarningsPage(): string {
  const rows = Object.entries(c3dWarningMeanings)
    .map(([code, meaning]) => [`\`${code}\``, meaning, whatToDo[code as C3dWarningCode]])
    .sort(([a], [b]) => (a! < b! ? -1 : 1));
  return `# What odd C3D files bring

C3D files contradict themselves often. The reader takes what fits the bytes that are there, and says so:
\`setsquare inspect TRIAL.c3d\` lists every warning of a file with what was found and what was used. A warning is no error;
\`check\` tells only of a file that cannot be read or that ends too early ([problems](problems.md)).

<!-- Written by scripts/write-c3d-warnings-page.ts; the meanings stand in src/core/c3d/c3d-warnings.ts. -->

${table([['code', 'meaning', 'what to do'], ...rows])}
`;
}

/** A Markdown table with its columns aligned; the first row is the head. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  const aligned = rows.map((row) => `| ${row.map((cell, column) => cell.padEnd(widths[column]!)).join(' | ')} |`);
  return [aligned[0], `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`, ...aligned.slice(1)].join('\n');
}
