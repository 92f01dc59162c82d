import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import { bare, quoted } from '../schemas/show-value.ts';
import type { Norms } from './norms.ts';
import { NormsError } from './norms-error.ts';

/**
 * Takes norms for a marker set, if they are for this very set and hold together.
 * @throws NormsError where they were made for another set, or their numbers do not fit.
 */
export function usableNorms(norms: Norms, set: LoadedMarkerSet): Norms {
  const { markerSet, residuals, mean, covariance, bodyHeightMm } = norms;
  const name = bare(norms.name);
  if (markerSet.sha256 !== set.sha256) {
    throw new NormsError(
      '/',
      `norms ${name}: they were made for ${bare(markerSet.name)} ${bare(markerSet.version)} (hash ${markerSet.sha256.slice(0, 8)}), but the marker set is ${bare(set.name)} ${bare(set.version)} (hash ${set.sha256.slice(0, 8)}); build norms for this set, or use the set they are for.`,
    );
  }
  const rules = new Set(set.rules.map((rule) => rule.id));
  const stranger = residuals.find((id, index) => !rules.has(id) || residuals.indexOf(id) !== index);
  if (stranger !== undefined) {
    throw new NormsError(
      '/',
      `norms ${name}: ${quoted(stranger)} is no rule of this set, or stands there twice; build them again.`,
    );
  }
  const n = residuals.length;
  if (mean.length !== n || covariance.length !== (n * (n + 1)) / 2) {
    throw new NormsError(
      '/',
      `norms ${name}: ${n} residuals need ${n} means and ${(n * (n + 1)) / 2} covariances, found ${mean.length} and ${covariance.length}; build them again.`,
    );
  }
  if (![...mean, ...covariance, bodyHeightMm].every(Number.isFinite) || bodyHeightMm <= 0) {
    throw new NormsError('/', `norms ${name}: a figure is no number; build them again.`);
  }
  return norms;
}
