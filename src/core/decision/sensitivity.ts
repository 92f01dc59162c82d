import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import { type Slide, slidesOf } from '../pose/slides.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';

/** One way in which one marker can be off, and what that does to every rule. */
export interface SensitivityColumn {
  readonly marker: number;
  readonly definition: MarkerDefinition;
  readonly slide: Slide;
  /** Hand scatter along it, 1 SD. */
  readonly scatterMm: number;
  /** Change of each rule's residual for each mm; index as the rules handed in. */
  readonly slopes: Float64Array;
}

export interface Sensitivity {
  readonly columns: readonly SensitivityColumn[];
}

const probeMm = 1;

/**
 * Derivatives of every rule's residual by every marker along its slides, by central differences through the whole
 * chain: body axes, virtual points and directions are rebuilt at each probe.
 */
export function measureSensitivity(body: StandingBody, rules: readonly AssessedRule[]): Sensitivity {
  const { geometry, set, lab } = body;
  const scratch = new Float64Array(geometry.size);
  const probe = lab.slice();
  const axes = geometry.axes(lab);
  const columns = set.markers.flatMap((definition, marker): SensitivityColumn[] => {
    if (!geometry.has(definition.label)) return [];
    return slidesOf(body, definition).map((slide) => {
      const slopes = new Float64Array(rules.length);
      for (const sign of [1, -1]) {
        for (let axis = 0; axis < 3; axis++) {
          const along =
            slide.vector[0] * axes.forward[axis]! +
            slide.vector[1] * axes.left[axis]! +
            slide.vector[2] * axes.up[axis]!;
          probe[marker * 3 + axis] = lab[marker * 3 + axis]! + sign * probeMm * along;
        }
        geometry.place(probe, scratch);
        for (let i = 0; i < rules.length; i++) {
          const { rule, parameters } = rules[i]!;
          slopes[i]! += (sign * ruleKinds[rule.kind].residual(scratch, parameters)) / (2 * probeMm);
        }
      }
      for (let axis = 0; axis < 3; axis++) probe[marker * 3 + axis] = lab[marker * 3 + axis]!;
      return { marker, definition, slide, scatterMm: scatterAlong(definition, slide), slopes };
    });
  });
  return { columns };
}

function scatterAlong(marker: MarkerDefinition, { direction }: Slide): number {
  return marker.scatterMm[direction === 'left' ? 'outward' : direction];
}
