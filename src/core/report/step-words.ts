import type { Move, MoveProposal } from './report.ts';

/** Nobody can stand for more than this before the next capture. */
export const stepsAtOnce = 3;

/** What a step waits for; empty where nothing. */
export function after(move: Move): string {
  if (move.dependsOn.length === 0) return '';
  const steps = move.dependsOn.map(String);
  const last = steps.at(-1)!;
  return steps.length === 1
    ? `Only after step ${last}.`
    : `Only after steps ${steps.slice(0, -1).join(', ')} and ${last}.`;
}

/** Another look than that of the step itself comes first, and is told right under it. */
export function settledElsewhere({ tie, marker }: Move): boolean {
  return tie !== null && tie.settledBy !== marker;
}

/** How sure the step is and what else would explain the findings; empty where nothing is known. */
export function doubtAbout(move: Move): string {
  const others = move.alternatives.map(placeOf);
  const or = others.length === 0 ? '' : `It could also be ${anyOf(others)}.`;
  return [howLikely(move, others.length > 0), or, settledElsewhere(move) ? '' : (move.tie?.says ?? '')]
    .filter((text) => text !== '')
    .join(' ');
}

/** In words: the figure rests on simulated people and stays in the JSON report. */
function howLikely({ probability, action }: Move, others: boolean): string {
  if (probability === null || action === 'relabel') return '';
  if (probability >= mostLikely) return 'Judged over the whole body, this is most likely the marker that is off.';
  if (probability >= likely)
    return 'Judged over the whole body, this is likely the marker that is off, but not certain.';
  if (probability < unlikely)
    return 'Judged over the whole body, the patient is more likely built so: palpate once, and leave it at that.';
  const besides = others ? 'others explain the findings as well' : 'the patient may as well be built so';
  return `Judged over the whole body, this is possibly the marker that is off; ${besides}.`;
}

const mostLikely = 0.75;
const likely = 0.4;
const unlikely = 0.1;

/** "the patient's right greater trochanter (about 35 mm forward, toward the groin)" */
function placeOf({ action, landmark, called, side, distanceMm, along, turnDeg }: MoveProposal): string {
  const sided = side === undefined || side === 'midline' ? '' : `${side} `;
  const far = distanceMm === undefined || along === undefined ? '' : ` (about ${nearestFive(distanceMm)} mm ${along})`;
  const what = action === 'move' || turnDeg !== undefined ? called : landmark;
  return `the patient's ${sided}${what ?? 'marker'}${far}`;
}

function nearestFive(mm: number): number {
  return Math.max(5, Math.round(mm / 5) * 5);
}

function anyOf(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')}, or ${names.at(-1)}`;
}
