import { angleName } from '../moves/changes-words.ts';
import type { MoveProposal } from '../moves/move.ts';

/** Under this a step's share is lost in the error of any laboratory (McGinley et al. 2009, Gait Posture 29:360-369). */
export const leastToldDeg = 2;
const mostAngles = 4;
/** From this share on a distance is too loose for one figure. */
const toldAsRangeFrom = 0.35;
/** Right and left that differ by less are told as one. */
const alikeDeg = 1;

interface Shift {
  readonly name: string;
  readonly side: string;
  readonly deg: number;
}

/**
 * The angles that a marker's place shifts by 2 degrees or more, largest first: "right hip rotation (about 6 degrees) and
 * right knee varus-valgus in flexion (about 5 degrees)". Empty where there is none.
 * @param loose 1 SD of how far the marker is off, over how far; where that is loose the degrees are told as a range
 */
export function anglesWithCaution(changes: NonNullable<MoveProposal['changes']>, loose: number): string {
  const leaks = changes.crossTalk.map(
    ({ side, varusDeg }): Shift => ({ name: 'knee varus-valgus in flexion', side, deg: varusDeg }),
  );
  const standing = changes.angles.map((angle): Shift => ({ name: angleName(angle), side: angle.side, deg: angle.deg }));
  const shifts = [...standing, ...leaks]
    .filter(({ deg }) => Math.abs(deg) >= leastToldDeg)
    .sort((a, b) => Math.abs(b.deg) - Math.abs(a.deg));
  const words = shifts.filter((shift) => !followsOther(shift, shifts)).map((shift) => say(shift, shifts, loose));
  const more = words.length - mostAngles;
  const told = more > 0 ? [...words.slice(0, mostAngles), `${more} more`] : words;
  return told.length < 2 ? told.join('') : `${told.slice(0, -1).join(', ')} and ${told.at(-1)}`;
}

function say(shift: Shift, shifts: readonly Shift[], loose: number): string {
  const about = `(${sayDegrees(Math.abs(shift.deg), loose)})`;
  if (otherSide(shift, shifts) !== undefined) return `${shift.name} on both sides ${about}`;
  return `${shift.side === 'midline' ? '' : `${shift.side} `}${shift.name} ${about}`;
}

/** "about 6 degrees"; "4 to 16 degrees" where how far the marker is off is loosely known, "up to" from twice that on. */
function sayDegrees(deg: number, loose: number): string {
  if (loose < toldAsRangeFrom) return `about ${Math.round(deg)} degrees`;
  const [low, high] = [Math.round(deg * (1 - loose)), Math.round(deg * (1 + loose))];
  return low < 1 ? `up to ${high} degrees` : `${low} to ${high} degrees`;
}

function followsOther(shift: Shift, shifts: readonly Shift[]): boolean {
  const other = otherSide(shift, shifts);
  return other !== undefined && shifts.indexOf(other) < shifts.indexOf(shift);
}

function otherSide({ name, side, deg }: Shift, shifts: readonly Shift[]): Shift | undefined {
  return shifts.find(
    (one) => one.name === name && one.side !== side && Math.abs(Math.abs(one.deg) - Math.abs(deg)) < alikeDeg,
  );
}
