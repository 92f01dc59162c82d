import { checkBody } from './check-body.ts';
import { checkComparisons } from './check-comparisons.ts';
import { checkMarkers } from './check-markers.ts';
import { checkMeasurements } from './check-measurements.ts';
import { checkModel } from './check-model.ts';
import { checkNames, checkSizes } from './check-names.ts';
import { checkPoints } from './check-points.ts';
import { checkRules } from './check-rules.ts';
import { checkTexts } from './check-texts.ts';
import { checkVariants } from './check-variants.ts';
import type { Draft } from './draft.ts';

/**
 * What a schema cannot see: names that stand for nothing or for two things, rules that could not work, limits that
 * contradict themselves. In the order in which a file is read, as later checks lean on earlier ones.
 * @throws MarkerSetError at the first fault, with the pointer into the file as written
 */
export function checkMarkerSet(draft: Draft): void {
  checkSizes(draft);
  checkNames(draft);
  checkPoints(draft);
  checkMarkers(draft);
  checkBody(draft);
  checkRules(draft);
  checkModel(draft);
  checkMeasurements(draft);
  checkComparisons(draft);
  checkVariants(draft);
  checkTexts(draft);
}
