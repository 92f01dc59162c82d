import { C3dError } from '../core/c3d/c3d-error.ts';
import { draftFromTrial } from '../core/marker-set-draft/draft-from-trial.ts';
import type { BaseSet } from '../core/marker-set-draft/draft-marker-set.ts';
import { drawMarkerSet } from '../core/marker-set-draft/draw-marker-set.ts';
import { formatDraft } from '../core/marker-set-draft/format-draft.ts';
import { formatMarkerSet } from '../core/marker-set-draft/format-marker-set.ts';
import { jsonText } from '../core/report/json-text.ts';
import { ownName } from '../core/report/own-name.ts';
import { isSameFile } from '../node/is-same-file.ts';
import { readMarkerSetFile, shippedMarkerSets } from '../node/read-marker-set-file.ts';
import { readReferenceAdult } from '../node/read-reference-adult.ts';
import { writeOutputAtomically } from '../node/write-output-atomically.ts';
import type { CommandContext } from './command-context.ts';
import { defaultMarkerSet } from './options.ts';
import { readMarkerSet } from './read-inputs.ts';
import { readNeededTrial } from './stand-in.ts';
import { UsageError } from './usage-error.ts';

export type MarkerSetAction = 'draft' | 'check' | 'show';

export interface MarkerSetOptions {
  readonly name: string;
  readonly output?: string;
  readonly format: 'text' | 'json' | 'svg';
}

/**
 * Drafts a marker set from a standing trial, checks one, or shows one.
 * @throws {UsageError | InputError} where an input cannot be used; the fault of a set is one sentence with its place.
 */
export async function markerSetCommand(
  action: MarkerSetAction,
  file: string | undefined,
  options: MarkerSetOptions,
  context: CommandContext,
): Promise<number> {
  if (options.format === 'svg' && action !== 'show')
    throw new UsageError(`--format svg is for "show"; use text or json with "${action}".`);
  const text = await { draft, check, show }[action](file, options, context);
  if (options.output === undefined || action === 'draft') await context.channels.report(text);
  else await writeOutputAtomically(options.output, text);
  return 0;
}

async function draft(trial: string | undefined, options: MarkerSetOptions, context: CommandContext): Promise<string> {
  if (trial === undefined)
    throw new UsageError('draft needs a standing trial; give one: marker-set draft standing.c3d.');
  const { output, name } = options;
  if (!/^[a-z0-9][a-z0-9-]{0,59}$/.test(name))
    throw new UsageError(`--name is "${name}", expected small letters, digits and hyphens, such as our-lab.`);
  if (output !== undefined && (await isSameFile(output, trial)))
    throw new UsageError(`--output ${ownName(output)} would overwrite the trial; choose another name.`);
  const { bytes } = await readNeededTrial(trial);
  const { inspectTrial } = await context.engine.inspect();
  const drafted = draftFromTrial(
    readable(trial, () => inspectTrial(bytes, trial)),
    await shippedSets(context),
    name,
  );
  if (!drafted.trajectories.some(({ marker }) => marker !== null)) {
    throw new UsageError(
      `${ownName(trial)}: ${drafted.trajectories.length} trajectories do not show how somebody stands; draft from a standing trial with at least eight markers of the pelvis and legs.`,
    );
  }
  const { parseMarkerSet } = await context.engine.check();
  const setText = jsonText(drafted.markerSet);
  // A draft that this program would refuse helps nobody.
  await parseMarkerSet(setText, '0'.repeat(64));
  if (output !== undefined) await writeOutputAtomically(output, setText);
  return options.format === 'json'
    ? jsonText({ format: 'setsquare-marker-set-draft/1', ...drafted })
    : formatDraft(drafted, output === undefined ? null : ownName(output), {
        columns: context.columns,
        color: context.color(undefined),
      });
}

/** @throws {UsageError} with the file's name, where it is no trial */
function readable<Result>(trial: string, read: () => Result): Result {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof C3dError)) throw error;
    throw new UsageError(`${ownName(trial)}: ${error.message}`, { cause: error });
  }
}

async function shippedSets({ engine }: CommandContext): Promise<BaseSet[]> {
  const names = await shippedMarkerSets();
  const { parseMarkerSet } = await engine.check();
  return Promise.all(
    names.map(async (name) => {
      const { text, sha256 } = await readMarkerSetFile(name);
      return { written: JSON.parse(text), set: await parseMarkerSet(text, sha256) };
    }),
  );
}

async function check(file: string | undefined, options: MarkerSetOptions, context: CommandContext): Promise<string> {
  if (file === undefined) throw new UsageError('check needs a marker set; give a file: marker-set check our-lab.json.');
  const set = await readMarkerSet(await context.engine.check(), file);
  const summary = {
    name: set.name,
    version: set.version,
    markers: set.markers.length,
    rules: set.rules.length,
    sha256: set.sha256,
  };
  if (options.format === 'json') return jsonText(summary);
  return `${set.name}, version ${set.version}: usable; ${set.markers.length} markers, ${set.rules.length} rules (hash ${set.sha256.slice(0, 8)}).\n`;
}

async function show(file: string | undefined, options: MarkerSetOptions, context: CommandContext): Promise<string> {
  const set = await readMarkerSet(await context.engine.check(), file ?? defaultMarkerSet);
  if (options.format === 'json') return jsonText({ name: set.name, version: set.version, markers: set.markers });
  if (options.format === 'svg') return drawMarkerSet(set, await readReferenceAdult());
  return formatMarkerSet(set, { columns: context.columns, color: context.color(undefined) });
}
