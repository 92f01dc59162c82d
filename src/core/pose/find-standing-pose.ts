import type { C3dFile } from '../c3d/read-c3d.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Problem } from '../problems/problem.ts';
import { type AveragedMarkers, averageWindow } from './average-window.ts';
import { type Facing, findFacing } from './facing.ts';
import type { FrameRange } from './frame-range.ts';
import { findLengthUnit } from './length-unit.ts';
import { meanOverBlocks, sumBlocks } from './motion-blocks.ts';
import {
  facingUnclear,
  facingUnknown,
  framesOutside,
  framesTooFew,
  nobodyStands,
  unitImplausible,
  verticalUnclear,
} from './pose-problems.ts';
import { findQuietWindow } from './quiet-window.ts';
import { findVertical, type Vertical } from './vertical.ts';

/** A person standing in the laboratory: where the markers are while they stand stillest. */
export interface StandingPose {
  readonly averaged: AveragedMarkers;
  readonly unit: string;
  readonly vertical: Vertical;
  readonly facing: Facing;
  /** Frames from 0, in the order stored. */
  readonly window: { readonly first: number; readonly count: number; readonly swayMm: number };
  readonly restless: boolean;
  /** The frames were asked for, and are not the quietest. */
  readonly asked: boolean;
}

/** Assumed where the file states no rate, so that windows have a length at all. */
const assumedRateHz = 100;
const leastAgreement = 0.7;
/** From fewer frames nobody can tell whether somebody stands still. */
const leastFrames = 3;

/**
 * Finds who stands where: length unit, which way is up, the quietest window, robust means in it, and which way the
 * subject faces. What is doubtful is told as problems; without a body there is no pose.
 * @param points index of the point that carries each marker of the set; -1 for none
 * @param frames frames to use, in the file's own numbering, in place of the quietest window
 */
export function findStandingPose(
  file: C3dFile,
  points: Int32Array,
  set: MarkerSet,
  frames: FrameRange | null,
): { pose: StandingPose | null; problems: Problem[] } {
  const problems: Problem[] = [];
  const rateHz = file.rateHz ?? assumedRateHz;
  const motion = sumBlocks(file, points, rateHz);
  const overall = meanOverBlocks(motion, 0, motion.blocks);
  const vertical = findVertical(overall, set, file.screen.y);
  if (vertical === null) return { pose: null, problems: [nobodyStands(set)] };
  if (vertical.unclear || vertical.contradicts !== null) problems.push(verticalUnclear(vertical));
  const unit = findLengthUnit(file.units, vertical.bodyHeight);
  if (unit === null)
    return { pose: null, problems: [...problems, unitImplausible(file.units, vertical.bodyHeight, null)] };
  if (!unit.trusted) problems.push(unitImplausible(file.units, vertical.bodyHeight, unit.name));

  const chosen = frames === null ? null : chosenFrames(file, frames);
  if (frames !== null && chosen === null) return { pose: null, problems: [...problems, framesOutside(file, frames)] };
  const quiet = findQuietWindow(motion, file.frameCount, rateHz, set.stillness.quietMm / unit.millimetres);
  const { first, count } = chosen ?? quiet;
  const averaged = averageWindow(file, points, first, count, unit.millimetres, rateHz);
  const swayMm = chosen === null ? quiet.sway * unit.millimetres : middleSway(averaged);
  const facing = findFacing(averaged.means, set, vertical.up);
  if (facing === null) return { pose: null, problems: [...problems, facingUnknown(set)] };
  if (facing.agreement < leastAgreement) problems.push(facingUnclear(set));
  if (count < leastFrames) problems.push(framesTooFew(count));
  return {
    pose: {
      averaged,
      unit: unit.name,
      vertical,
      facing,
      window: { first, count, swayMm },
      restless: swayMm > set.stillness.restlessMm,
      asked: chosen !== null,
    },
    problems,
  };
}

function chosenFrames(file: C3dFile, { first, last }: FrameRange): { first: number; count: number } | null {
  const from = first - file.firstFrame;
  const to = last - file.firstFrame;
  return from >= 0 && to < file.frameCount && from <= to ? { first: from, count: to - from + 1 } : null;
}

/** Median sway over the visible markers. */
function middleSway(averaged: AveragedMarkers): number {
  const seen = [...averaged.sdMm].filter((_, marker) => averaged.visible[marker]! > 0).sort((a, b) => a - b);
  return seen[seen.length >> 1] ?? 0;
}
