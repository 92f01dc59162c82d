import type { Norms } from '../decision/norms.ts';
import { measureSensitivity } from '../decision/sensitivity.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { assessRules, isAssessed } from '../rules/assess-rules.ts';
import { expectedRules } from '../rules/expected-rules.ts';
import type { Session } from '../session/session.ts';
import type { Prior, PriorRule } from './estimate-norms.ts';

/**
 * Norms as what is believed before a laboratory's own figures: those rules that the marker set has as well, with the
 * scatter of the hand, which recorded trials always hold.
 * @param body an average adult with the set's markers on, on whom the scatter of each marker is followed to the rules
 */
export function priorFromNorms(norms: Norms, set: MarkerSet, body: StandingBody, session: Session): Prior {
  const rows = norms.residuals.flatMap((id, row) => {
    const rule = set.rules.find((one) => one.id === id);
    return rule === undefined ? [] : [{ rule, row }];
  });
  const p = rows.length;
  const covariance = new Float64Array(p * p);
  rows.forEach(({ row: a }, i) => {
    rows.forEach(({ row: b }, j) => {
      covariance[i * p + j] = norms.covariance[(Math.max(a, b) * (Math.max(a, b) + 1)) / 2 + Math.min(a, b)]!;
    });
  });
  if (!norms.includesScatter) {
    const assessed = assessRules(body, expectedRules(set, session), session).filter(isAssessed);
    const at = rows.map(({ rule }) => assessed.findIndex((one) => one.rule.id === rule.id));
    for (const { scatterMm, slopes } of measureSensitivity(body, assessed).followed) {
      const effect = at.map((index) => (index < 0 ? 0 : scatterMm * slopes[index]!));
      for (let i = 0; i < p; i++) for (let j = 0; j < p; j++) covariance[i * p + j]! += effect[i]! * effect[j]!;
    }
  }
  const sd = rows.map((_, i) => Math.sqrt(covariance[i * p + i]!));
  return {
    rules: rows.map(
      ({ rule, row }, i): PriorRule => ({
        id: rule.id,
        isConstruction: rule.basis === 'construction',
        mean: norms.mean[row]!,
        sd: sd[i]!,
      }),
    ),
    correlation: covariance.map((value, at) => {
      const [i, j] = [Math.floor(at / p), at % p];
      return i === j ? 1 : value / (sd[i]! * sd[j]!);
    }),
  };
}
