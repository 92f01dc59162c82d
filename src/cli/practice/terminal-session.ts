import { createInterface } from 'node:readline';
import { Readable } from 'node:stream';
import { figureTable } from '../../core/practice/figure-table.ts';
import type { PracticeRun } from '../../core/practice/practice-run.ts';
import { type MarkerChoice, showTrial, tellTrial } from '../../core/practice/shown-trial.ts';
import { parseVerdict, verdictExample } from '../../core/practice/written-verdict.ts';
import { TextPage } from '../../core/report/text-page.ts';
import type { CommandContext } from '../command-context.ts';

/**
 * A session in plain text, one line of input for each trial: the figure is told in numbers. Ends with the last trial,
 * with the end of the input or with `q`.
 */
export async function runTerminalSession(run: PracticeRun, now: () => string, context: CommandContext): Promise<void> {
  const { channels, columns, signal, stdin } = context;
  let isBegun = false;
  const page = (write: (page: TextPage) => void): Promise<void> => {
    const text = new TextPage({ columns, color: context.color(undefined) });
    write(text);
    const isFirst = !isBegun;
    isBegun = true;
    return channels.report(`${isFirst ? '' : '\n'}${text.toString()}`);
  };
  const source = stdin();
  const lines = createInterface({ input: source instanceof Readable ? source : Readable.from(source), signal });
  const typed = lines[Symbol.asyncIterator]();
  const nextLine = async (): Promise<string | null> => {
    await channels.report('> ');
    const { value, done } = await typed.next();
    if (done) await channels.report('\n');
    return done ? null : value;
  };
  try {
    await page((text) => text.paragraph(howTo));
    for (let shown = showTrial(run); shown !== null; shown = showTrial(run)) {
      const { number, of, figure, choices } = shown;
      await page((text) => {
        text.paragraph(`Trial ${number} of ${of}`, { ink: 'bold' });
        text.table(figureTable(figure.markers, choices));
      });
      for (;;) {
        const line = await nextLine();
        if (line === null || /^q(uit)?$/i.test(line.trim())) return;
        if (line.trim() === '?') {
          await page((text) => writeWays(text, choices));
          continue;
        }
        const verdict = parseVerdict(line, choices);
        if (typeof verdict === 'string') {
          await page((text) => text.paragraph(verdict));
          continue;
        }
        const { feedback } = tellTrial(run, verdict, now());
        await page((text) => {
          for (const says of feedback.truth) text.paragraph(says, { ink: 'bold' });
          for (const says of [...feedback.score, ...feedback.look, ...feedback.limits])
            text.paragraph(says, { indent: 2 });
        });
        break;
      }
    }
  } finally {
    lines.close();
    signal.throwIfAborted();
    if (run.answered > 0) {
      await page((text) => {
        text.paragraph('This session', { ink: 'bold' });
        for (const says of run.summary().says) text.paragraph(says, { indent: 2 });
      });
    }
  }
}

const howTo = `Look at each figure and write down your verdict before anything is told: "nothing", or which marker, which way and about how many mm (${verdictExample}; several with commas). "?" lists the markers and their ways, "q" ends.`;

function writeWays(text: TextPage, choices: readonly MarkerChoice[]): void {
  for (const { marker, called, ways } of choices) {
    text.paragraph(`${called}: ${ways.map(({ says }) => says).join('; ')}`, { lead: marker.padEnd(8) });
  }
}
