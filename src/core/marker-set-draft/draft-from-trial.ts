import type { Vec3 } from '../geometry/vector.ts';
import type { Inspection } from '../inspect-trial.ts';
import type { WrittenMarkerSet } from '../marker-set/written-marker-set.ts';
import { type BaseSet, draftMarkerSet, labelOf, nearestSet } from './draft-marker-set.ts';
import { nameTrajectories } from './name-trajectories.ts';

/** One trajectory of the trial and what it is taken for. */
export interface DraftedTrajectory {
  /** As stored in the file, without a subject's prefix; empty where it has none. */
  readonly label: string;
  /** Place in the file, from 1. */
  readonly point: number;
  /** Label in the draft; null for none. */
  readonly marker: string | null;
  /** What it lies on, in words; null for nothing known. */
  readonly landmark: string | null;
  readonly confidence: number;
  /** What it might be as well, in words. */
  readonly rival: string | null;
}

export interface DraftedSet {
  readonly trajectories: readonly DraftedTrajectory[];
  /** Shipped set that the draft starts from. */
  readonly after: string;
  readonly markerSet: WrittenMarkerSet;
}

/** A trajectory seen in less than this share of the frames is no marker that anybody put on. */
const leastSeen = 0.1;

/** Drafts a marker set from a standing trial, whatever its labels say. */
export function draftFromTrial(inspection: Inspection, bases: readonly BaseSet[], name: string): DraftedSet {
  const seen = inspection.markers.filter(
    ({ mean, validFrames }) => mean !== null && validFrames >= leastSeen * inspection.frames,
  );
  const named = nameTrajectories(seen.map(({ mean }) => mean as Vec3));
  const found = seen.flatMap(({ label }, index) => {
    const { landmark } = named[index]!;
    return landmark === null ? [] : [{ label: withoutPrefix(label), landmark }];
  });
  const base = nearestSet(bases, found);
  return {
    after: base.set.name,
    trajectories: seen.map(({ label, index }, at) => {
      const { landmark, confidence, rival } = named[at]!;
      return {
        label: withoutPrefix(label),
        point: index + 1,
        marker: landmark && labelOf(landmark),
        landmark: landmark && sided(landmark),
        confidence,
        rival: rival && sided(rival),
      };
    }),
    markerSet: draftMarkerSet(base, found, name),
  };
}

function sided({ side, called }: { side: string; called: string }): string {
  return side === 'midline' ? called : `${side} ${called}`;
}

function withoutPrefix(label: string): string {
  return label.slice(label.lastIndexOf(':') + 1);
}
