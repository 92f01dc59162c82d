import type { MoveProposal } from '../../core/report/report.ts';
import type { Place, View } from './views.ts';

/** Movement of a step in body axes: forward, left, up; mm. Null where it moves nothing. */
export function movementOf({ mm, side }: MoveProposal): Place | null {
  if (mm === undefined) return null;
  const left = 'left' in mm ? mm.left : side === 'right' ? -mm.outward : mm.outward;
  return [mm.forward, left, mm.up];
}

/** A view shows a movement well where it foreshortens it to no less than this. */
const wellShown = 0.9;

/**
 * From where a step's picture is looked at: among the views that show the movement at nearly its full length, the side
 * the marker is on; for a marker of the middle the patient's right, where most movements there are seen.
 */
export function viewOf(movement: Place, side: MoveProposal['side'], isBehind: boolean): View {
  const beside: View = side === 'left' ? 'left' : 'right';
  const facing: View = isBehind ? 'behind' : 'front';
  const size = Math.hypot(...movement);
  const shown: readonly { readonly view: View; readonly mm: number }[] = [
    { view: beside, mm: Math.hypot(movement[0], movement[2]) },
    { view: facing, mm: Math.hypot(movement[1], movement[2]) },
    { view: 'above', mm: Math.hypot(movement[0], movement[1]) },
  ];
  const good = shown.find(({ mm }) => mm >= wellShown * size);
  return (good ?? [...shown].sort((a, b) => b.mm - a.mm)[0]!).view;
}
