import { formatOwnNorms } from '../../audit/norms/format-own-norms.ts';
import { makeOwnNorms, type OwnNorms } from '../../audit/norms/make-own-norms.ts';
import type { Norms } from '../../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { roundTo } from '../../core/report/rounding.ts';
import type { Session } from '../../core/session/session.ts';
import { InputError } from '../../node/input-error.ts';
import { shippedMarkerSets } from '../../node/read-marker-set-file.ts';
import { readShippedNorms } from '../../node/read-norms-file.ts';
import { readReferenceAdult } from '../../node/read-reference-adult.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import { withParts } from '../audit/with-parts.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet } from '../read-inputs.ts';

export interface NormsOptions {
  readonly markerSet: string;
  readonly name?: string;
  readonly normsVersion: string;
  readonly format: 'text' | 'json';
  readonly output?: string;
}

/** Stature of the average adult whose markers ship. */
const adultStatureMm = 1700;

/**
 * Makes a laboratory's own norms from the stores or parts of an audit, says what came of it, and writes them where asked.
 * @throws {UsageError | InputError} where an input cannot be used, or there are too few people
 */
export async function normsCommand(
  stores: readonly string[],
  options: NormsOptions,
  context: CommandContext,
): Promise<number> {
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet);
  const base = await nearestNorms(set);
  const adultSession: Session = {
    ...engine.emptySession,
    measurements: [{ measure: 'stature', side: null, value: adultStatureMm, unit: 'mm' }],
  };
  const name = options.name ?? `${set.name}-own`;
  const inputs = { set, base, adult: await readReferenceAdult(), adultSession, name, version: options.normsVersion };
  return withParts(stores, context.channels, async (rows) => {
    const own = await makeOwnNorms(rows, inputs);
    context.signal.throwIfAborted();
    await context.channels.report(
      options.format === 'json'
        ? jsonText(summaryOf(own))
        : formatOwnNorms(own, { columns: context.columns, color: context.color(undefined) }),
    );
    if (options.output !== undefined) {
      await writeOutputAtomically(options.output, `${JSON.stringify(own.norms)}\n`);
      context.channels.say(`the norms are in ${options.output}; setsquare check --norms uses them.`);
    } else {
      context.channels.say('nothing was written; --output FILE writes the norms.');
    }
    return 0;
  });
}

/** The shipped norms that have most of the set's rules: its own, or those of the set it was drafted from. */
async function nearestNorms(set: LoadedMarkerSet): Promise<Norms> {
  const rules = new Set(set.rules.map(({ id }) => id));
  let best: { norms: Norms; shared: number } | null = null;
  for (const name of await shippedMarkerSets()) {
    const norms = await readShippedNorms(name);
    if (norms === null) continue;
    const shared =
      norms.markerSet.sha256 === set.sha256 ? Infinity : norms.residuals.filter((id) => rules.has(id)).length;
    if (best === null || shared > best.shared) best = { norms, shared };
  }
  if (best === null || best.shared === 0)
    throw new InputError(
      `${set.name}: none of its rules is one that norms ship for, so there is nothing to draw toward`,
      'keep the ids of the rules that the set was drafted with',
    );
  return best.norms;
}

/** For programs: figures to a hundredth, ratios to a ten-thousandth. */
function summaryOf({ norms, base, gathered, rules, shifted, misfit }: OwnNorms): unknown {
  const two = (value: number): number | null => roundTo(2, value);
  return {
    format: 'setsquare-norms-report/1',
    norms: { name: norms.name, version: norms.version, markerSet: norms.markerSet, people: norms.people },
    base,
    firstDay: gathered.firstDay,
    lastDay: gathered.lastDay,
    leftOut: gathered.leftOut,
    misfit: misfit && { people: misfit.people, before: two(misfit.before), after: two(misfit.after) },
    shifted: shifted.map(({ offset, interval, limit, ...one }) => ({
      ...one,
      offset: two(offset),
      interval: interval.map(two),
      limit: two(limit),
    })),
    rules: rules.map(({ title: _, ...rule }) => {
      const round = (value: number | null): number | null =>
        value === null ? null : roundTo(rule.unit === 'ratio' ? 4 : 2, value);
      return {
        ...rule,
        priorMean: round(rule.priorMean),
        priorSd: round(rule.priorSd),
        ownMiddle: round(rule.ownMiddle),
        ownSd: round(rule.ownSd),
        mean: round(rule.mean),
        sd: round(rule.sd),
      };
    }),
  };
}
