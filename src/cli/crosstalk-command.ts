import type { Crosstalk } from '../core/crosstalk/crosstalk.ts';
import type { CrosstalkHeading } from '../core/crosstalk/format-crosstalk.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Session } from '../core/session/session.ts';
import type { CommandContext } from './command-context.ts';
import { readMarkerSet, readNorms, readSession } from './read-inputs.ts';
import { readNeededTrial } from './stand-in.ts';

export interface CrosstalkOptions {
  readonly static: string;
  readonly markerSet: string;
  readonly session?: string;
  readonly norms?: string;
  readonly format: 'text' | 'json';
}

const exitCodes: Readonly<Record<Crosstalk['verdict'], number>> = { clear: 0, adjust: 1, 'not-usable': 2 };

/**
 * Prints what a knee bend or a walk says of the knee axes, beside what the static trial says.
 * @throws {UsageError | InputError} where a file, the marker set or the session cannot be read.
 */
export async function crosstalkCommand(
  trial: string,
  options: CrosstalkOptions,
  context: CommandContext,
): Promise<number> {
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet);
  const session = await readSession(engine, options.session);
  const norms = await readNorms(engine, set, options.norms);
  const standing = await readNeededTrial(options.static);
  const moving = await readNeededTrial(trial);

  const [{ checkCrosstalk }, { standTrial }] = await Promise.all([
    import('../core/crosstalk/check-crosstalk.ts'),
    import('../core/stand-trial.ts'),
  ]);
  const source = { path: options.static, sha256: standing.sha256 };
  const report = engine.checkTrial(standing.bytes, set, session, source, norms);
  const stood = standTrial(standing.bytes, set, session, null);
  const crosstalk = checkCrosstalk(moving.bytes, stood, report, set, session);

  const paths = { trial: { path: trial, sha256: moving.sha256 }, static: source };
  await context.channels.report(
    options.format === 'json'
      ? await asJson(crosstalk, paths, set, session)
      : await asText(
          crosstalk,
          { trial: ownName(trial), static: ownName(options.static), markerSet: `${set.name}, version ${set.version}` },
          context,
        ),
  );
  return exitCodes[crosstalk.verdict];
}

async function asText(crosstalk: Crosstalk, heading: CrosstalkHeading, context: CommandContext): Promise<string> {
  const { formatCrosstalk } = await import('../core/crosstalk/format-crosstalk.ts');
  return formatCrosstalk(heading, crosstalk, { columns: context.columns, color: context.color(undefined) });
}

async function asJson(
  crosstalk: Crosstalk,
  paths: Readonly<Record<'trial' | 'static', { path: string; sha256: string }>>,
  set: LoadedMarkerSet,
  session: Session,
): Promise<string> {
  const { crosstalkJson } = await import('../core/crosstalk/crosstalk-json.ts');
  return crosstalkJson(crosstalk, paths, set, session);
}
