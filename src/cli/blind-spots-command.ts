import { findBlindSpots, type Visibility } from '../core/blind-spots/find-blind-spots.ts';
import { formatBlindSpots } from '../core/blind-spots/format-blind-spots.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../core/pose/body-from-positions.ts';
import type { StandingBody } from '../core/pose/standing-body.ts';
import { jsonText } from '../core/report/json-text.ts';
import { ownName } from '../core/report/own-name.ts';
import { roundTo } from '../core/report/rounding.ts';
import { assessRules, isAssessed } from '../core/rules/assess-rules.ts';
import { expectedRules } from '../core/rules/expected-rules.ts';
import type { Session } from '../core/session/session.ts';
import { readReferenceAdult } from '../node/read-reference-adult.ts';
import type { CommandContext } from './command-context.ts';
import { readMarkerSet, readNorms, readSession } from './read-inputs.ts';
import { readNeededTrial, standIn } from './stand-in.ts';
import { UsageError } from './usage-error.ts';

export interface BlindSpotsOptions {
  readonly trial?: string;
  readonly session?: string;
  readonly norms?: string;
  readonly format: 'text' | 'json';
}

/**
 * Prints what no rule of a marker set sees, on the reference adult or on the person of a trial, and from what size on the
 * rest is seen and named.
 * @throws {UsageError | InputError} where an input cannot be used, or holds nobody standing.
 */
export async function blindSpotsCommand(
  nameOrPath: string,
  options: BlindSpotsOptions,
  context: CommandContext,
): Promise<number> {
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, nameOrPath);
  const session = await readSession(engine, options.session);
  const norms = await readNorms(engine, set, options.norms);
  const body =
    options.trial === undefined ? await standReference(set, session) : await standRecorded(options.trial, set, session);
  const outcomes = assessRules(body, expectedRules(set, session), session);
  const spots = findBlindSpots(body, outcomes, norms);
  const heading = {
    markerSet: set.name,
    on: options.trial === undefined ? 'the reference adult' : `the person in ${ownName(options.trial)}`,
    rules: outcomes.length,
    assessed: outcomes.filter(isAssessed).length,
    norms: norms?.name ?? null,
  };
  await context.channels.report(
    options.format === 'json'
      ? jsonText({
          format: 'setsquare-blind-spots/1',
          ...heading,
          on: options.trial === undefined ? 'reference-adult' : 'trial',
          displacements: spots.map(rounded),
        })
      : formatBlindSpots(heading, spots, { columns: context.columns, color: context.color(undefined) }),
  );
  return 0;
}

/** To 0.1 mm, and changes to 0.01 for each mm. */
function rounded({ fails, openers, ...spot }: Visibility): unknown {
  return {
    ...spot,
    fails: fails && { mm: roundTo(1, fails.mm), rule: fails.rule },
    openers: openers.map((opener) => ({
      ...opener,
      changePerMm: opener.changePerMm === null ? null : roundTo(2, opener.changePerMm),
    })),
  };
}

async function standReference(set: LoadedMarkerSet, session: Session): Promise<StandingBody> {
  const adult = await readReferenceAdult();
  const strange = set.markers.filter(({ label, presence }) => presence === 'required' && !adult.has(label));
  const body = bodyFromPositions(set, session, (label) => adult.get(label));
  if (strange.length > 0 || body === null) {
    throw new UsageError(
      `${set.name}: the reference adult has no place for ${strange.map(({ label }) => label).join(', ') || 'its markers'}; give a standing trial of your laboratory with --trial.`,
    );
  }
  return body;
}

async function standRecorded(path: string, set: LoadedMarkerSet, session: Session): Promise<StandingBody> {
  const { bytes } = await readNeededTrial(path);
  return standIn(path, bytes, set, session).body;
}
