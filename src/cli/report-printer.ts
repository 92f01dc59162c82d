import type { Report } from '../core/report/report.ts';

export type ReportFormat = 'text' | 'json' | 'jsonl' | 'html' | 'note';

/** Text to print as each report comes, and when all are there. */
export interface ReportPrinter {
  add(report: Report): string;
  end(): string;
}

interface PrinterOptions {
  readonly columns: number;
  readonly color: boolean;
  /** On pages: names of files, which often hold people's. */
  readonly showNames: boolean;
}

export async function reportPrinter(format: ReportFormat, options: PrinterOptions): Promise<ReportPrinter> {
  if (format === 'text') return textPrinter(options);
  if (format === 'html') return pagePrinter(options);
  if (format === 'note') return notePrinter();
  const { formatJson, formatJsonLine } = await import('../core/report/format-json.ts');
  if (format === 'jsonl') return { add: formatJsonLine, end: () => '' };
  // One object or an array: the second report tells. No report is kept, however many trials there are.
  let held = '';
  let printed = 0;
  return {
    add(report) {
      const json = formatJson([report]).trimEnd();
      printed += 1;
      if (printed > 1) return `${printed === 2 ? `[\n${indented(held)}` : ''},\n${indented(json)}`;
      held = json;
      return '';
    },
    end: () => (printed === 1 ? `${held}\n` : '\n]\n'),
  };
}

/** No string of a report holds a line break of its own: JSON writes those as `\n`. */
function indented(json: string): string {
  return json.replaceAll(/^/gm, '  ');
}

async function textPrinter({ columns, color }: PrinterOptions): Promise<ReportPrinter> {
  const { formatText } = await import('../core/report/format-text.ts');
  const between = `\n${'='.repeat(Math.min(columns, 80))}\n\n`;
  let printed = 0;
  return {
    add: (report) => (printed++ === 0 ? '' : between) + formatText(report, { columns, color }),
    end: () => '',
  };
}

/** A paragraph for each, in one line, so that it can be pasted into a report. */
async function notePrinter(): Promise<ReportPrinter> {
  const { readerNote } = await import('../core/reader-note/reader-note.ts');
  let printed = 0;
  return { add: (report) => (printed++ === 0 ? '' : '\n') + readerNote(report), end: () => '' };
}

/** One page for all: nothing can be printed before the last report is there. */
async function pagePrinter({ showNames }: PrinterOptions): Promise<ReportPrinter> {
  const { renderReportsPage } = await import('../page/render-report-page.tsx');
  const reports: Report[] = [];
  return {
    add(report) {
      reports.push(report);
      return '';
    },
    end: () => renderReportsPage(reports, { showNames }),
  };
}
