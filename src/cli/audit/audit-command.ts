import { availableParallelism } from 'node:os';
import { analyse } from '../../audit/analysis/analyse.ts';
import type { AuditInputs, SetWithNorms } from '../../audit/check/audit-inputs.ts';
import { filesFrom, readFileList } from '../../audit/find/files-from.ts';
import { type FoundFiles, findTrials } from '../../audit/find/find-trials.ts';
import type { Share } from '../../audit/find/share-of-files.ts';
import { runAudit } from '../../audit/run-audit.ts';
import { keptReport, reportKey } from '../../audit/store/kept-report.ts';
import { parsePathPattern } from '../../audit/trial/path-pattern.ts';
import { counted } from '../../core/report/counted.ts';
import { shippedMarkerSets } from '../../node/read-marker-set-file.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet, readNorms } from '../read-inputs.ts';
import { UsageError } from '../usage-error.ts';
import { type AuditOutputOptions, auditExitCode, checkOutputOptions, exportRows, printAudit } from './audit-output.ts';
import { progressBar } from './audit-progress.ts';
import { writeTrialPages } from './trial-pages.ts';

export interface AuditOptions extends AuditOutputOptions {
  readonly filesFrom?: string;
  readonly store: string;
  readonly markerSet: readonly string[];
  readonly norms?: string;
  readonly pathPattern?: string;
  readonly rehash?: boolean;
  readonly threads?: number;
  readonly share?: Share;
  readonly pages?: string;
}

const whole: Share = { number: 1, of: 1 };
const mostThreads = 8;

/**
 * Audits folders: checks what is new, writes the part, and reports on it. A share of the files is checked and written
 * only: a report comes from all parts together.
 * @throws {UsageError | InputError} where options, inputs or the store cannot be used.
 */
export async function auditCommand(
  folders: readonly string[],
  options: AuditOptions,
  context: CommandContext,
): Promise<number> {
  const { channels, signal } = context;
  checkOutputOptions(options);
  const pattern = options.pathPattern === undefined ? null : parsePathPattern(options.pathPattern);
  const inputs = await readAuditInputs(options, context);
  const found = await findFiles(folders, options, context);
  const share = options.share ?? whole;
  const bar = progressBar(context);
  const counts = { unchanged: 0, checked: 0 };
  const run = {
    storeFolder: options.store,
    share,
    threads: options.threads ?? Math.min(mostThreads, availableParallelism()),
    pattern,
    rehash: options.rehash === true,
    now: () => Date.now(),
    signal,
    onProgress: (progress: { total: number; done: number; unchanged: number; checked: number }) => {
      Object.assign(counts, { unchanged: progress.unchanged, checked: progress.checked });
      bar.update(progress.done, progress.total);
    },
  };
  return runAudit(found, inputs, run, async ({ rows, partPath, isParquet, outdated, digest, reportPath }) => {
    bar.stop();
    channels.say(
      `${counted(counts.checked, 'trial')} checked, ${counts.unchanged} unchanged; results are in ${partPath}.`,
    );
    if (outdated.length > 0) {
      const isOne = outdated.length === 1;
      channels.say(
        `${outdated.join(', ')} ${isOne ? 'was' : 'were'} taken away: ${isOne ? 'it tells' : 'they tell'} of the same files, split in another way.`,
      );
    }
    if (!isParquet) channels.say('the results are JSON Lines; Parquet needs the package @duckdb/node-api.');
    await exportRows(rows, options, channels);
    const make = () => analyse(rows, { mostReexaminations: options.most });
    // Text and table show no chart; pages are made of what was found, which is the same.
    const hasCharts = options.format === 'html' || options.format === 'json';
    const key = reportKey(digest, options.most);
    const report = hasCharts ? await make() : await keptReport(reportPath, key, make);
    if (share.of > 1) {
      channels.say(
        `this is share ${share.number} of ${share.of}; "setsquare audit report ${options.store}" reports on all of them.`,
      );
      return auditExitCode(report);
    }
    const paged = options.pages === undefined ? report : await writeTrialPages(report, inputs, options, options.pages);
    return printAudit(paged, options, context);
  }).finally(() => bar.stop());
}

async function findFiles(
  folders: readonly string[],
  { filesFrom: list }: AuditOptions,
  { signal, stdin }: CommandContext,
): Promise<FoundFiles> {
  if (folders.length === 0 && list === undefined) {
    throw new UsageError('audit needs a folder with trials, or a list by --files-from; name one.');
  }
  const found = await findTrials(folders, signal);
  if (list === undefined) return found;
  const listed = filesFrom(await readFileList(list, stdin()));
  const known = new Set(found.files.map(({ path }) => path));
  return { ...found, files: [...found.files, ...listed.filter(({ path }) => !known.has(path))] };
}

/** Marker sets with their norms: one, several, or with `fit` all that ship. */
async function readAuditInputs(options: AuditOptions, { engine }: CommandContext): Promise<AuditInputs> {
  const checks = await engine.check();
  const named = options.markerSet.flatMap((name) => (name === 'fit' ? [] : [name]));
  const fitted = options.markerSet.includes('fit') ? await shippedMarkerSets() : [];
  const names = [...new Set([...named, ...fitted])];
  if (options.norms !== undefined && names.length > 1) {
    throw new UsageError('--norms goes with one marker set; leave it out, or name one --marker-set.');
  }
  const sets: SetWithNorms[] = [];
  for (const name of names) {
    const markerSet = await readMarkerSet(checks, name);
    sets.push({ markerSet, norms: await readNorms(checks, markerSet, options.norms) });
  }
  return { sets };
}
