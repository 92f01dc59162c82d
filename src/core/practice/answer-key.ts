import type { MarkerSet, SideOrMiddle } from '../marker-set/marker-set.ts';
import type { MoveProposal, Report } from '../report/report.ts';
import type { BodyShift } from './skin-ways.ts';

/** A marker that may be named for a finding, and where it goes from where it is. */
export interface AcceptedMarker {
  readonly marker: string;
  readonly side: SideOrMiddle;
  readonly shift: BodyShift;
  /** "11 mm up, away from the sole" */
  readonly says: string;
}

/** One thing that is off. */
export interface ExpectedFinding {
  /** The marker itself first; after it those that nothing on the figure tells it apart from. */
  readonly accepted: readonly [AcceptedMarker, ...AcceptedMarker[]];
  /** The program itself takes the patient to be built so: whoever names nothing is not wrong. */
  readonly isOptional: boolean;
  /** The look that would settle a tie; empty where there is none. */
  readonly settledBy: string;
}

export interface AnswerKey {
  /** `planted`: the truth, for the trial was made; `program`: what the program would do, and no more than that. */
  readonly basis: 'planted' | 'program';
  /** Empty where there is nothing to move. */
  readonly expected: readonly ExpectedFinding[];
  /** Markers that may be off without geometry seeing it, where nothing but the program tells what is right. */
  readonly unseen: readonly string[];
}

/** A fault that was put into a made trial. */
export interface PlantedFault {
  readonly marker: string;
  /** From where the marker belongs to where it stands. */
  readonly shift: BodyShift;
}

/** Under this probability the report itself says that the patient is more likely built so. */
const unlikely = 0.1;

/** What the program would do. */
export function keyOfReport(report: Report): AnswerKey {
  const expected = report.moves.flatMap((move): ExpectedFinding[] => {
    const first = accepted(move);
    if (first === null) return [];
    const tied = move.alternatives.filter(({ marker }) => marker !== undefined && move.tie?.markers.includes(marker));
    const others = tied.flatMap((one) => accepted(one) ?? []);
    return [
      {
        accepted: [first, ...others, ...(move.bothSides ? mirrored(first, report) : [])],
        isOptional: move.probability !== null && move.probability < unlikely,
        settledBy: move.tie?.says ?? '',
      },
    ];
  });
  return { basis: 'program', expected, unseen: report.coverage.unseen.flatMap(({ markers }) => markers) };
}

/** What was done to a made trial; a marker that the program cannot tell from the planted one is right as well. */
export function keyOfPlanted(fault: PlantedFault | null, report: Report, set: MarkerSet): AnswerKey {
  if (fault === null) return { basis: 'planted', expected: [], unseen: [] };
  const marker = set.markers.find(({ label }) => label === fault.marker)!;
  const { forward, left, up } = fault.shift;
  const shift = { forward: -forward, left: -left, up: -up };
  const seen = keyOfReport(report).expected.find((one) => one.accepted.some((other) => other.marker === fault.marker));
  const own = seen?.accepted.find((one) => one.marker === fault.marker);
  const truth = { marker: fault.marker, side: marker.side, shift, says: own?.says ?? '' };
  const others = (seen?.accepted ?? []).filter((one) => one.marker !== fault.marker);
  return {
    basis: 'planted',
    expected: [{ accepted: [truth, ...others], isOptional: false, settledBy: seen?.settledBy ?? '' }],
    unseen: [],
  };
}

function accepted({ marker, side, mm, distanceMm, along }: MoveProposal): AcceptedMarker | null {
  if (marker === undefined || side === undefined || mm === undefined) return null;
  const left = 'left' in mm ? mm.left : side === 'right' ? -mm.outward : mm.outward;
  const says = distanceMm === undefined || along === undefined ? '' : `${Math.round(distanceMm)} mm ${along}`;
  return { marker, side, shift: { forward: mm.forward, left, up: mm.up }, says };
}

/** Where nothing tells which side is off, the other one the opposite way is as good an answer. */
function mirrored({ marker, side, shift }: AcceptedMarker, { markers }: Report): AcceptedMarker[] {
  const other = side === 'right' ? 'left' : 'right';
  const called = markers[marker]?.called;
  return Object.entries(markers)
    .filter(([, one]) => one.called === called && one.side === other)
    .map(([label]) => ({
      marker: label,
      side: other,
      // Forward and up turn round; outward does as well, which leaves the sign of left.
      shift: { forward: -shift.forward, left: shift.left, up: -shift.up },
      says: '',
    }));
}
