import type { ComparisonKind } from '../marker-set/comparison-definition.ts';
import { alongLeg } from './along-leg.ts';
import { betweenMarkers } from './between-markers.ts';
import type { ComparisonKindReader } from './comparison-kind.ts';
import { pelvicDepth } from './pelvic-depth.ts';
import { statureFromHeight } from './stature-from-height.ts';

export const comparisonKindReaders: Readonly<Record<ComparisonKind, ComparisonKindReader>> = {
  'between-markers': betweenMarkers,
  'along-leg': alongLeg,
  'pelvic-depth': pelvicDepth,
  'stature-from-height': statureFromHeight,
};
