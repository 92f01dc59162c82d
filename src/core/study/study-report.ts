import type { StudySize } from '../repeatability/study-components.ts';
import type { AngleName } from './angle-values.ts';
import type { AngleCost } from './cost-in-degrees.ts';
import type { Repeatability } from './judge-values.ts';
import type { PlacementDirection } from './placement-values.ts';
import type { Placing } from './study-capture.ts';

/** A capture of the design as it was used. */
export interface CaptureRecord extends Placing {
  readonly on: string | null;
  /** As the design has it. */
  readonly trial: string;
  /** Empty where the file could not be read. */
  readonly sha256: string;
  /** Why it was left out; null where it was used. */
  readonly leftOut: string | null;
}

/** Values of a quantity in the order of the report's captures; null where there is none, as of one that was left out. */
export interface Measured {
  readonly values: readonly (number | null)[];
  /** Null where nothing of it was repeated in a balanced part. */
  readonly repeats: Repeatability | null;
}

/** Where a marker sits on its segment, along one direction; mm. */
export interface PlacementResult extends Measured {
  readonly marker: string;
  readonly called: string;
  readonly segment: string;
  readonly direction: PlacementDirection;
  /** The rule by which a marker set by eye is told; null for one that is told on its segment. */
  readonly rule: string | null;
  /** Share of a deviation that is taken for a motion of the segment, 0 to 1. */
  readonly leverage: number;
  /** Joint angles in standing that one SEM changes, the largest first; degrees. */
  readonly costs: readonly AngleCost[];
}

/** A marker in all directions: root of the summed squares of its SEM, as published precision is told; mm. */
export interface LandmarkResult {
  readonly marker: string;
  readonly called: string;
  readonly rmsWithinMm: number | null;
  readonly rmsBetweenMm: number | null;
  /** Directions that could not be told, so that the figures are at least so large. */
  readonly without: readonly PlacementDirection[];
}

/** How far apart two markers of a segment are; mm. */
export interface DistanceResult extends Measured {
  readonly markers: readonly [string, string];
  readonly segment: string;
}

/** A joint angle in standing; degrees. */
export interface AngleResult extends AngleName, Measured {
  /** What the placements that could be told make of its SEM together, taken as independent. */
  readonly fromPlacingDeg: number | null;
  /** The placement that costs it most. */
  readonly mostlyFrom: { readonly marker: string; readonly direction: PlacementDirection; readonly deg: number } | null;
}

/** A repeatability study, worked out. Nothing in it is rounded. */
export interface StudyReport {
  readonly format: 'setsquare-study-report/1';
  readonly tool: { readonly version: string };
  readonly title: string | null;
  readonly site: string | null;
  readonly markerSet: { readonly name: string; readonly version: string; readonly sha256: string };
  readonly design: {
    readonly subjects: readonly string[];
    readonly assessors: readonly string[];
    /** What most quantities rest on. */
    readonly balanced: StudySize;
    readonly firstDay: string | null;
    readonly lastDay: string | null;
    /** Days between a session and the next of the same assessor with the same subject; null where days are missing. */
    readonly daysApart: { readonly shortest: number; readonly median: number; readonly longest: number } | null;
    readonly skinMarksRemoved: boolean | null;
    readonly nextDue: string | null;
  };
  readonly captures: readonly CaptureRecord[];
  /** What has to be known before a figure is believed. */
  readonly cautions: readonly string[];
  /** What costs most in degrees first, then what repeats worst. */
  readonly placements: readonly PlacementResult[];
  /** Placements that the other markers do not hold apart from the segment's own motion. */
  readonly notTold: readonly { readonly marker: string; readonly direction: PlacementDirection }[];
  readonly landmarks: readonly LandmarkResult[];
  /** The worst first. */
  readonly angles: readonly AngleResult[];
  readonly distances: readonly DistanceResult[];
}
