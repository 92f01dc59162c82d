import { dirname, join } from 'node:path';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { ownName } from '../../core/report/own-name.ts';
import type { Session } from '../../core/session/session.ts';
import { standTrial } from '../../core/stand-trial.ts';
import { analyseStudy, type ReadCapture } from '../../core/study/analyse-study.ts';
import { formatStudy } from '../../core/study/format-study.ts';
import { parseStudy } from '../../core/study/parse-study.ts';
import { roundStudy } from '../../core/study/round-study.ts';
import type { PlannedCapture, StudyDesign } from '../../core/study/study-design.ts';
import type { StudyReport } from '../../core/study/study-report.ts';
import { InputError } from '../../node/input-error.ts';
import { shippedMarkerSets } from '../../node/read-marker-set-file.ts';
import { readTextFile } from '../../node/read-text-file.ts';
import { readTrialFile } from '../../node/read-trial-file.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import type { CommandContext } from '../command-context.ts';
import type { CheckEngine } from '../engine.ts';
import { defaultMarkerSet } from '../options.ts';
import { inFile, readMarkerSet, readSession } from '../read-inputs.ts';
import { UsageError } from '../usage-error.ts';

export interface StudyOptions {
  readonly markerSet?: string;
  readonly format: 'text' | 'json' | 'html';
  readonly output?: string;
}

/**
 * Reads every capture of a design and says how well placement and joint angles repeat. Returns the exit code: 2 where a
 * capture could not be used, told in the report.
 * @throws {UsageError | InputError} where design, marker set or a session file cannot be used
 */
export async function studyCommand(path: string, options: StudyOptions, context: CommandContext): Promise<number> {
  const { text } = await readTextFile(path, `study ${ownName(path)}`);
  const design = await inFile(path, async () => parseStudy(text));
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet ?? (await markerSetOf(design, path)));
  const read: ReadCapture[] = [];
  for (const planned of design.captures) {
    context.signal.throwIfAborted();
    read.push(await readCapture(planned, dirname(path), set, engine));
  }
  refuseCopies(design, read, path);
  const report = await inFile(path, async () => analyseStudy(design, set, read));
  const printed = await formatted(report, options, context);
  if (options.output === undefined) await context.channels.report(printed);
  else await writeOutputAtomically(options.output, printed);
  return report.captures.some(({ leftOut }) => leftOut !== null) ? 2 : 0;
}

async function markerSetOf({ markerSet }: StudyDesign, path: string): Promise<string> {
  if (markerSet === null) return defaultMarkerSet;
  return (await shippedMarkerSets()).includes(markerSet) ? markerSet : join(dirname(path), markerSet);
}

async function readCapture(
  planned: PlannedCapture,
  folder: string,
  set: LoadedMarkerSet,
  engine: CheckEngine,
): Promise<ReadCapture> {
  const recorded: Session = await readSession(
    engine,
    planned.sessionFile === null ? undefined : join(folder, planned.sessionFile),
  );
  try {
    const { bytes, sha256 } = await readTrialFile(join(folder, planned.trial));
    const stood = standTrial(bytes, set, recorded, null);
    if (!('body' in stood)) return { sha256, leftOut: stood.problems[0]?.message ?? 'nobody stands in it.' };
    const { subject, assessor, session } = planned;
    const on = planned.on ?? recorded.visit.on;
    return { sha256, capture: { subject, assessor, session, on, body: stood.body, recorded: stood.session } };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { sha256: '', leftOut: error.message };
  }
}

/** One recording in two rows would count as perfect agreement. */
function refuseCopies({ captures }: StudyDesign, read: readonly ReadCapture[], path: string): void {
  read.forEach(({ sha256 }, index) => {
    const before = read.findIndex((one) => one.sha256 === sha256);
    if (sha256 === '' || before === index) return;
    throw new UsageError(
      `${ownName(path)}: at /captures/${index}/trial: ${ownName(captures[index]!.trial)} holds the same bytes as the trial of /captures/${before}, which would count as perfect agreement; name the trial that was meant.`,
    );
  });
}

async function formatted(
  report: StudyReport,
  { format, output }: StudyOptions,
  { columns, color }: CommandContext,
): Promise<string> {
  if (format === 'json') return jsonText(roundStudy(report));
  if (format === 'html') {
    const { renderStudyPage } = await import('../../page/study/render-study-page.tsx');
    return renderStudyPage(report);
  }
  return formatStudy(
    report,
    output === undefined ? { columns, color: color(undefined) } : { columns: 80, color: false },
  );
}
