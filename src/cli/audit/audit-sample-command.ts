import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { RowSource } from '../../audit/parts/part-file.ts';
import { compareReaders } from '../../audit/sample/compare-readers.ts';
import { drawSample } from '../../audit/sample/draw-sample.ts';
import { formatDrawnSample, formatSampleReport } from '../../audit/sample/format-sample.ts';
import { type Reading, readVerdicts } from '../../audit/sample/read-verdicts.ts';
import { formatReadingList } from '../../audit/sample/reading-list.ts';
import { FileIndex } from '../../audit/store/file-index.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { ownName } from '../../core/report/own-name.ts';
import type { Verdict } from '../../core/report/report.ts';
import { isDate } from '../../core/session/is-date.ts';
import { InputError } from '../../node/input-error.ts';
import { readTextFile } from '../../node/read-text-file.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import type { CommandContext } from '../command-context.ts';
import { UsageError } from '../usage-error.ts';
import { withParts } from './with-parts.ts';

export interface AuditSampleOptions {
  readonly n?: number;
  readonly seed?: number;
  readonly verdicts?: readonly string[];
  readonly asOf?: string;
  readonly format: 'text' | 'csv' | 'json';
  readonly output?: string;
  readonly showNames?: boolean;
}

/**
 * Draws trials for a second reader, or reads verdicts back.
 * @throws {UsageError | InputError} where options, parts or verdicts cannot be used.
 */
export async function auditSampleCommand(
  parts: readonly string[],
  options: AuditSampleOptions,
  context: CommandContext,
): Promise<number> {
  const { n, seed, verdicts, format, output } = options;
  const isReadingBack = verdicts !== undefined;
  if (isReadingBack && (n !== undefined || seed !== undefined))
    throw new UsageError('--verdicts reads a list back, --n and --seed draw one; give the one or the others.');
  if (!isReadingBack && (n === undefined || seed === undefined))
    throw new UsageError('audit sample needs --n and --seed to draw, or --verdicts to read a list back; give them.');
  if (isReadingBack && format === 'csv')
    throw new UsageError('--format csv is for a list that is drawn; use text or json.');
  if (options.asOf !== undefined && !(/^\d{4}-\d{2}-\d{2}$/.test(options.asOf) && isDate(options.asOf)))
    throw new UsageError(`--as-of is "${options.asOf}", expected a day such as 2026-03-02; correct it.`);
  const stores = parts.length === 0 ? ['setsquare-audit'] : parts;
  const text = await withParts(stores, context.channels, (rows) =>
    isReadingBack
      ? readBack(rows, verdicts, options, context, output === undefined)
      : draw(rows, n!, seed!, stores, options, context, output === undefined),
  );
  if (output === undefined) await context.channels.report(text);
  else await writeOutputAtomically(output, text);
  return 0;
}

async function draw(
  rows: RowSource,
  count: number,
  seed: number,
  stores: readonly string[],
  { format, showNames }: AuditSampleOptions,
  context: CommandContext,
  toTerminal: boolean,
): Promise<string> {
  const sample = await drawSample(rows, count, seed);
  if (sample.trials.length === 0)
    throw new InputError(
      `${stores.join(', ')}: no trial there could be read, so none can be drawn`,
      'audit folders with trials first',
    );
  if (sample.trials.length < count)
    context.channels.say(`there are only ${sample.trials.length} trials that could be read; all of them were drawn.`);
  const pathOf = showNames === true ? await pathsIn(stores) : new Map<string, string>();
  if (format === 'csv') return formatReadingList(sample, pathOf);
  if (format === 'text') return formatDrawnSample(sample, pathOf, textOptions(context, toTerminal));
  const trials = sample.trials.map(({ sha256, ...shown }) => ({ ...shown, path: pathOf.get(sha256) ?? null }));
  return jsonText({ ...sample, trials });
}

async function readBack(
  rows: RowSource,
  files: readonly string[],
  { format, asOf }: AuditSampleOptions,
  context: CommandContext,
  toTerminal: boolean,
): Promise<string> {
  const readings: Reading[] = [];
  let unread = 0;
  for (const file of files) {
    const { text } = await readTextFile(file, `the verdicts ${ownName(file)}`);
    const read = readVerdicts(text, ownName(file));
    readings.push(...read.readings);
    unread += read.unread;
  }
  const wanted = new Set(readings.map(({ trial }) => trial));
  const tool = new Map<string, Verdict>();
  for await (const { trial, verdict } of rows.rows()) if (wanted.has(trial)) tool.set(trial, verdict);
  const report = compareReaders(readings, unread, tool, asOf ?? null);
  return format === 'json' ? jsonText(report) : formatSampleReport(report, textOptions(context, toTerminal));
}

function textOptions({ columns, color }: CommandContext, toTerminal: boolean) {
  return toTerminal ? { columns, color: color(undefined) } : { columns: 80, color: false };
}

/** Where trials lie, by their hash, as the stores know it. */
async function pathsIn(stores: readonly string[]): Promise<Map<string, string>> {
  const paths = new Map<string, string>();
  for (const store of stores) {
    const shares = (await readdir(store).catch(() => [])).filter((name) => name.startsWith('share-'));
    for (const share of shares) {
      const index = join(store, share, 'files.jsonl');
      if (!(await stat(index).catch(() => null))) continue;
      for (const { path, sha256 } of FileIndex.entriesIn(index)) paths.set(sha256, path);
    }
  }
  return paths;
}
