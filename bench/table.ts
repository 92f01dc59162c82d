import { cpus, loadavg } from 'node:os';
import { isMet, type Row } from './row.ts';

/** Runnable threads on average over the minute before the run: other work on the machine shows in every figure. */
export const loadBefore = loadavg()[0]!;

/** The table in Markdown, under a line that says when, where and how. */
export function table(rows: readonly Row[], date: string): string {
  const processors = cpus();
  const machine = `${processors.length} cores of ${processors[0]?.model.trim() ?? 'an unknown kind'}`;
  const missed = rows.filter((row) => !isMet(row)).length;
  const lines = [
    ['what', 'median', 'held against the target', 'target'],
    ['---', '---:', '---:', '---'],
    ...rows.map((row) => [row.what, row.figure, held(row), target(row)]),
  ];
  return [
    `${date}, ${machine}, ${process.platform} ${process.arch}, Node.js ${process.version}, load ${loadBefore.toFixed(1)} when it began:`,
    missed === 0
      ? 'every target met.'
      : `${missed} of ${rows.filter((row) => row.target !== null).length} targets missed.`,
    '',
    ...lines.map((cells) => `| ${cells.join(' | ')} |`),
  ].join('\n');
}

function held({ value, target, figure }: Row): string {
  if (value === null) return '';
  if (target === null || target.unit === 'times') return `${value.toFixed(2)} times`;
  return target.unit === 'MB' ? figure : value.toFixed(0);
}

function target(row: Row): string {
  if (row.target === null) return '';
  const { sense, value, unit } = row.target;
  return `${isMet(row) ? '' : '**missed:** '}${sense} ${value} ${unit}`;
}
