import type { Interval } from './sample-statistics.ts';

export interface Agreement {
  readonly count: number;
  /** Share of pairs that agree, and the share that two readers with these habits would agree on by chance. */
  readonly observed: number;
  readonly byChance: number;
  /** Null where both always said the same one thing: then chance alone gives all of it. */
  readonly kappa: number | null;
  readonly standardError: number | null;
  readonly interval: Interval | null;
}

const twoSided95 = 1.959964;

/**
 * Cohen's kappa (1960) with the large-sample standard error of Fleiss, Cohen and Everitt (1969) and the 95 % interval
 * from it. @param pairs what one reader and the other said of each trial
 */
export function cohenKappa(pairs: readonly (readonly [string, string])[]): Agreement {
  const count = pairs.length;
  const names = [...new Set(pairs.flat())].sort();
  const share = (first: string | null, second: string | null): number =>
    pairs.filter(([a, b]) => (first === null || a === first) && (second === null || b === second)).length / count;
  const rows = names.map((name) => share(name, null));
  const columns = names.map((name) => share(null, name));
  const observed = names.reduce((sum, name) => sum + share(name, name), 0);
  const byChance = names.reduce((sum, _, index) => sum + rows[index]! * columns[index]!, 0);
  if (count === 0 || byChance > 1 - 1e-12)
    return { count, observed, byChance, kappa: null, standardError: null, interval: null };
  const kappa = (observed - byChance) / (1 - byChance);
  const onDiagonal = names.reduce(
    (sum, name, index) => sum + share(name, name) * (1 - (rows[index]! + columns[index]!) * (1 - kappa)) ** 2,
    0,
  );
  const offDiagonal = names.reduce(
    (sum, first, i) =>
      sum +
      names.reduce(
        (inner, second, j) => inner + (i === j ? 0 : share(first, second) * (columns[i]! + rows[j]!) ** 2),
        0,
      ),
    0,
  );
  const variance =
    (onDiagonal + (1 - kappa) ** 2 * offDiagonal - (kappa - byChance * (1 - kappa)) ** 2) /
    (count * (1 - byChance) ** 2);
  const standardError = Math.sqrt(Math.max(0, variance));
  const half = twoSided95 * standardError;
  return {
    count,
    observed,
    byChance,
    kappa,
    standardError,
    interval: [Math.max(-1, kappa - half), Math.min(1, kappa + half)],
  };
}
