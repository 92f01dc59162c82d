import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { BodyModel } from './body-model.ts';

/** Deviation with markers and readings put back by a displacement along their columns. */
export function deviationAtPose({
  body,
  rules,
  columns,
  sheet,
  deviation: measured,
}: BodyModel): (chosen: readonly number[], displacementMm: Float64Array, deviation: Float64Array) => void {
  const expected = rules.map(
    ({ rule, parameters }, i) => ruleKinds[rule.kind].residual(body.positions, parameters) - measured[i]!,
  );
  const compared = sheet?.rows ?? [];
  const lab = body.lab.slice();
  const positions = new Float64Array(body.geometry.size);
  const { forward, left, up } = body.geometry.axes(body.lab);
  return (chosen, displacementMm, deviation) => {
    lab.set(body.lab);
    chosen.forEach((column, i) => {
      for (const { marker, vector } of columns[column]?.shifts ?? []) {
        for (let axis = 0; axis < 3; axis++) {
          const along = vector[0] * forward[axis]! + vector[1] * left[axis]! + vector[2] * up[axis]!;
          lab[marker * 3 + axis]! -= displacementMm[i]! * along;
        }
      }
    });
    body.geometry.place(lab, positions);
    rules.forEach(({ rule, parameters }, i) => {
      deviation[i] = ruleKinds[rule.kind].residual(positions, parameters) - expected[i]!;
    });
    compared.forEach((row, i) => {
      let residual = row.residual(positions);
      chosen.forEach((column, at) => {
        if (column >= columns.length) residual -= row.slopes[column - columns.length]! * displacementMm[at]!;
      });
      deviation[rules.length + i] = residual;
    });
  };
}
