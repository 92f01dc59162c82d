import { type AngleInRange, angleInRange } from './angle-in-range.ts';
import { type DistanceInRange, distanceInRange } from './distance-in-range.ts';
import { type LengthsAlike, lengthsAlike } from './lengths-alike.ts';
import { type LineParallelToFloor, lineParallelToFloor } from './line-parallel-to-floor.ts';
import { type LineSquareToAxis, lineSquareToAxis } from './line-square-to-axis.ts';
import { type OrderAlongAxis, orderAlongAxis } from './order-along-axis.ts';
import { type PairLevel, pairLevel } from './pair-level.ts';
import { type PairMirrored, pairMirrored } from './pair-mirrored.ts';
import { type PointInLine, pointInLine } from './point-in-line.ts';
import { type PointOnMidline, pointOnMidline } from './point-on-midline.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export type AnyRuleSpec =
  | AngleInRange
  | DistanceInRange
  | LengthsAlike
  | LineParallelToFloor
  | LineSquareToAxis
  | OrderAlongAxis
  | PairLevel
  | PairMirrored
  | PointInLine
  | PointOnMidline;

export type RuleKindName = AnyRuleSpec['kind'];

/** Every kind of rule, by the name a marker set uses for it. */
export const ruleKinds: Readonly<Record<RuleKindName, RuleKind<RuleSpec, unknown>>> = {
  'angle-in-range': angleInRange,
  'distance-in-range': distanceInRange,
  'lengths-alike': lengthsAlike,
  'line-parallel-to-floor': lineParallelToFloor,
  'line-square-to-axis': lineSquareToAxis,
  'order-along-axis': orderAlongAxis,
  'pair-level': pairLevel,
  'pair-mirrored': pairMirrored,
  'point-in-line': pointInLine,
  'point-on-midline': pointOnMidline,
};
