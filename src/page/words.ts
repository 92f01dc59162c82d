import { counted } from '../core/report/counted.ts';
import type { MoveProposal, Report } from '../core/report/report.ts';
import { fixed } from '../core/report/rounding.ts';

/** "11 mm", "about 70 mm": the distance of a step as it is told at the bedside. */
export function distanceWords({ action, distanceMm }: MoveProposal): string {
  if (distanceMm === undefined) return '';
  if (action === 'move') return `${Math.max(1, Math.round(distanceMm))} mm`;
  return `about ${Math.max(5, Math.round(distanceMm / 5) * 5)} mm`;
}

/** "give or take 25 mm"; empty where the distance is no looser than a hand places a marker. */
export function giveOrTake({ uncertaintyMm }: MoveProposal): string {
  if (uncertaintyMm === undefined || uncertaintyMm < 8) return '';
  return `give or take ${Math.round(uncertaintyMm / 5) * 5} mm`;
}

/** "left heel marker", after "the patient's"; a landmark that is to be palpated by its own name. */
export function markerWords({ action, landmark, called, side, marker, bothSides }: MoveProposal): string {
  if (bothSides) return `${landmark ?? called ?? 'marker'}, on both sides`;
  const sided = side === undefined || side === 'midline' ? '' : `${side} `;
  const isLandmark = action === 'palpate-again' && sided !== '';
  return `${sided}${(isLandmark ? landmark : called) ?? called ?? landmark ?? marker ?? 'marker'}`;
}

/** "frames 176 to 375, sway 1.5 mm" */
export function windowWords({ trial }: Report): string {
  const { window } = trial;
  return window === null
    ? ''
    : `frames ${window.firstFrame} to ${window.lastFrame}, sway ${fixed(1, window.swayMm)} mm`;
}

/** Steps beyond those to do at once. */
export function moreSteps(count: number): string {
  return `${counted(count, 'more step')}: see below. After these three, capture again.`;
}

/** What a trial is called where its file's name may hold a person's: the first digits of its hash. */
export function trialName({ trial }: Report): string {
  return trial.sha256 === '' ? 'trial without a hash' : `trial ${trial.sha256.slice(0, 8)}`;
}
