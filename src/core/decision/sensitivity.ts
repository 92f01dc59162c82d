import type { Vec3 } from '../geometry/vector.ts';
import type { BodyDirection, MarkerDefinition } from '../marker-set/marker-set.ts';
import { slidesOf } from '../pose/slides.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { ComparedRow } from '../sheet-against-trial/sheet-comparison.ts';

/** One way in which a marker can be off, and what that does to every rule. */
export interface SensitivityColumn {
  readonly marker: number;
  readonly definition: MarkerDefinition;
  readonly direction: BodyDirection;
  /** What goes with one millimetre of it: the marker along its slide, and markers that were set by it. Body axes. */
  readonly shifts: readonly { readonly marker: number; readonly vector: Vec3 }[];
  /** Hand scatter along the slide, 1 SD. */
  readonly scatterMm: number;
  /** Change of each residual for each mm; index as the rules handed in, then the compared readings. */
  readonly slopes: Float64Array;
}

export interface Sensitivity {
  /** A marker moved by itself, as when it came off its place after the others were set. */
  readonly alone: readonly SensitivityColumn[];
  /**
   * A landmark misplaced before the markers that follow it were set by eye: those come along, and the rules of the
   * protocol see nothing. As `alone` for a marker that leads none.
   */
  readonly followed: readonly SensitivityColumn[];
}

const probeMm = 1;
/** A rule that hardly changes when the follower slides (a wand that stands off) is not what it is set by. */
const leastGrip = 0.7;

/**
 * Derivatives of every rule's residual by every marker along its slides, by central differences through the whole
 * chain: body axes, virtual points and directions are rebuilt at each probe.
 * @param compared hand measurements that the markers foretell, after the rules
 */
export function measureSensitivity(
  body: StandingBody,
  rules: readonly AssessedRule[],
  compared: readonly ComparedRow[] = [],
): Sensitivity {
  const { geometry, set, lab } = body;
  const scratch = new Float64Array(geometry.size);
  const probe = lab.slice();
  const { forward, left, up } = geometry.axes(lab);
  const alone = set.markers.flatMap((definition, marker): SensitivityColumn[] => {
    if (!geometry.has(definition.label)) return [];
    // A segment seen edge on, or folded up, has no axes to slide along: nothing is told of the marker's way then.
    const slides = slidesOf(body, definition);
    if (!slides.every(({ vector }) => vector.every(Number.isFinite))) return [];
    return slides.map(({ direction, vector }) => {
      const slopes = new Float64Array(rules.length + compared.length);
      for (const sign of [1, -1]) {
        for (let axis = 0; axis < 3; axis++) {
          const along = vector[0] * forward[axis]! + vector[1] * left[axis]! + vector[2] * up[axis]!;
          probe[marker * 3 + axis] = lab[marker * 3 + axis]! + sign * probeMm * along;
        }
        geometry.place(probe, scratch);
        for (let i = 0; i < rules.length; i++) {
          const { rule, parameters } = rules[i]!;
          slopes[i]! += (sign * ruleKinds[rule.kind].residual(scratch, parameters)) / (2 * probeMm);
        }
        compared.forEach((row, i) => {
          slopes[rules.length + i]! += (sign * row.residual(scratch)) / (2 * probeMm);
        });
      }
      for (let axis = 0; axis < 3; axis++) probe[marker * 3 + axis] = lab[marker * 3 + axis]!;
      const scatterMm = definition.scatterMm[direction === 'left' ? 'outward' : direction];
      return { marker, definition, direction, shifts: [{ marker, vector }], scatterMm, slopes };
    });
  });
  return { alone, followed: alone.map((column) => withFollowers(column, alone, rules)) };
}

/** The column with the markers set by eye on it carried along, so that their own rules stay as they were. */
function withFollowers(
  column: SensitivityColumn,
  columns: readonly SensitivityColumn[],
  rules: readonly AssessedRule[],
): SensitivityColumn {
  if (column.definition.placedBy === 'eye') return column;
  const slopes = column.slopes.slice();
  const shifts = [...column.shifts];
  rules.forEach(({ rule }, index) => {
    if (rule.basis !== 'construction' || column.slopes[index] === 0) return;
    const follower = columns.find(
      ({ definition }) => definition.label === rule.mayMove[0] && definition.placedBy === 'eye',
    );
    if (follower === undefined || Math.abs(follower.slopes[index]!) < leastGrip) return;
    const along = -column.slopes[index]! / follower.slopes[index]!;
    for (let i = 0; i < slopes.length; i++) slopes[i]! += along * follower.slopes[i]!;
    const { marker, vector } = follower.shifts[0]!;
    shifts.push({ marker, vector: [along * vector[0], along * vector[1], along * vector[2]] });
  });
  return { ...column, shifts, slopes };
}
