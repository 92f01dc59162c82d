import { checkTrial } from '../core/check-trial.ts';
import { type ComparedCapture, compareTrials, type TrialComparison } from '../core/compare/compare-trials.ts';
import { formatComparison } from '../core/compare/format-comparison.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { jsonText } from '../core/report/json-text.ts';
import { ownName } from '../core/report/own-name.ts';
import { roundTo } from '../core/report/rounding.ts';
import type { Session } from '../core/session/session.ts';
import type { CommandContext } from './command-context.ts';
import { readMarkerSet, readSession } from './read-inputs.ts';
import { readNeededTrial, standIn } from './stand-in.ts';
import { UsageError } from './usage-error.ts';

export interface CompareOptions {
  readonly markerSet: string;
  readonly session?: string;
  readonly format: 'text' | 'json';
}

/**
 * Compares captures of one subject with the first of them.
 * @throws {UsageError | InputError} where one cannot be used, before anything is printed.
 */
export async function compareCommand(
  trials: readonly string[],
  options: CompareOptions,
  context: CommandContext,
): Promise<number> {
  const [first, ...others] = trials;
  if (first === undefined || others.length === 0)
    throw new UsageError(
      'compare needs two standing trials of the same subject, or more; give them, the earlier first.',
    );
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet);
  const session = await readSession(engine, options.session);
  const before = await capture(first, set, session);
  const compared: { path: string; comparison: TrialComparison }[] = [];
  for (const path of others) {
    context.signal.throwIfAborted();
    compared.push({ path, comparison: compareTrials(before, await capture(path, set, session)) });
  }
  const page = { columns: context.columns, color: context.color(undefined) };
  await context.channels.report(
    options.format === 'json'
      ? jsonText({
          format: 'setsquare-comparison/1',
          against: first,
          markerSet: { name: set.name, version: set.version, sha256: set.sha256 },
          captures: compared.map(({ path, comparison }) => ({ path, ...rounded(comparison) })),
        })
      : compared
          .map(({ path, comparison }) =>
            formatComparison(comparison, { before: ownName(first), now: ownName(path) }, page),
          )
          .join('\n\n'),
  );
  return 0;
}

async function capture(path: string, set: LoadedMarkerSet, session: Session): Promise<ComparedCapture> {
  const { bytes, sha256 } = await readNeededTrial(path);
  const { body, session: recorded } = standIn(path, bytes, set, session);
  return { body, recorded, report: checkTrial(bytes, set, session, { path, sha256 }) };
}

/** To 0.1 mm and degrees. */
function rounded({ marking, placement, angles, posture, ...rest }: TrialComparison): object {
  const tenth = (value: number): number | null => roundTo(1, value);
  return {
    marking: {
      ...marking,
      spacingChangeMm: marking.spacingChangeMm === null ? null : tenth(marking.spacingChangeMm),
      sizeChange: marking.sizeChange === null ? null : roundTo(3, marking.sizeChange),
    },
    ...rest,
    placement: placement.map((one) => ({
      ...one,
      mm: { forward: tenth(one.mm.forward), up: tenth(one.mm.up), outward: tenth(one.mm.outward) },
      distanceMm: tenth(one.distanceMm),
    })),
    angles: angles.map((one) => ({
      ...one,
      before: tenth(one.before),
      now: tenth(one.now),
      fromPlacing: tenth(one.fromPlacing),
    })),
    posture: posture.map((one) => ({ ...one, before: tenth(one.before), now: tenth(one.now) })),
  };
}
