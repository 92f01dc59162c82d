import type { RuleDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { turnView } from '../pose/views.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';

/** Static accuracy of a marker in a good camera system: Merriaux et al. 2017, Sensors 17:1591. */
const cameraErrorMm = 0.15;

/**
 * Standard error of a rule's value from averaging a swaying person: the spread of the value over equal parts of the
 * window, divided by the root of their number. Parts share slow sway, so the spread itself is taken where there are
 * only a few; a part in which the markers lie so that the value means nothing says nothing. Never below what cameras
 * can tell.
 */
export function averagingError(body: StandingBody, rule: RuleDefinition, parameters: unknown): number {
  const kind = ruleKinds[rule.kind];
  const floor = rule.unit === 'mm' ? cameraErrorMm : 0;
  const residuals = body.parts.map((part) => kind.residual(part, parameters)).filter(Number.isFinite);
  const n = residuals.length;
  if (n < 2) return floor;
  let sum = 0;
  let squares = 0;
  for (const residual of residuals) {
    const value = residual - residuals[0]!;
    sum += value;
    squares += value * value;
  }
  const variance = Math.max(0, squares - (sum * sum) / n) / (n - 1);
  const independent = body.restless ? 1 : n / 2;
  return Math.max(floor, Math.sqrt(variance / independent));
}

/** What an estimated or recorded direction of view adds, 1 SD, and the words that go with it. */
export function viewError(
  body: StandingBody,
  rule: RuleDefinition,
  parameters: unknown,
): { readonly error: number; readonly caution: string } {
  const kind = ruleKinds[rule.kind];
  const { views } = kind.needs(rule);
  if (views.length === 0) return { error: 0, caution: '' };
  const scratch = body.positions.slice();
  let variance = 0;
  let caution = '';
  for (const name of views) {
    const { from, sdDeg } = body.geometry.view(name);
    if (sdDeg === 0) continue;
    const slot = body.geometry.lookup.view(name);
    const residuals = [1, -1].map((sign) => {
      for (let axis = 0; axis < 3; axis++) scratch[slot + axis] = body.positions[slot + axis]!;
      turnView(scratch, slot, sign * sdDeg);
      return kind.residual(scratch, parameters);
    });
    variance += ((residuals[0]! - residuals[1]!) / 2) ** 2;
    caution =
      from === 'estimate'
        ? body.set.views.find((view) => view.name === name)!.caution
        : `the direction was recorded by eye, to about ${Math.round(sdDeg)}°: check that it is right`;
  }
  return { error: Math.sqrt(variance), caution };
}
