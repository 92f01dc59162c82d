import { displayWidth, wrapText } from './wrap-text.ts';

export interface TextOptions {
  /** Width of the terminal in columns; under 60 counts as 60, the least a table needs. */
  readonly columns: number;
  /** Whether ANSI codes may underline the meaning; the words alone say it all. */
  readonly color: boolean;
}

export type Ink = 'plain' | 'bold' | 'dim' | 'red' | 'yellow';

const ansi: Readonly<Record<Exclude<Ink, 'plain'>, readonly [number, number]>> = {
  bold: [1, 22],
  dim: [2, 22],
  red: [31, 39],
  yellow: [33, 39],
};

const narrowest = 60;
/** Longer lines of prose are hard to read at a glance. */
const widestProse = 100;

/** Lines of a report in the making. Everything that is put on it is escaped and broken to the width. */
export class TextPage {
  private readonly lines: string[] = [];
  private readonly columns: number;
  private readonly color: boolean;

  constructor(options: TextOptions) {
    this.columns = Number.isFinite(options.columns) ? Math.max(narrowest, Math.floor(options.columns)) : 80;
    this.color = options.color;
  }

  blank(count = 1): void {
    for (let i = 0; i < count; i++) this.lines.push('');
  }

  /** A paragraph; `lead` stands before its first line, and the others hang below the text. */
  paragraph(text: string, options: { indent?: number; lead?: string; ink?: Ink } = {}): void {
    const { indent = 0, lead = '', ink = 'plain' } = options;
    const margin = indent + displayWidth(lead);
    wrapText(text, Math.min(this.columns, widestProse) - margin).forEach((line, index) => {
      const before = ' '.repeat(indent) + (index === 0 ? lead : ' '.repeat(margin - indent));
      this.lines.push(`${before.slice(0, indent)}${this.inked(before.slice(indent) + line, ink)}`);
    });
  }

  heading(text: string): void {
    this.blank();
    this.paragraph(text, { ink: 'bold' });
  }

  /** Rows of cells; the first column gives way and wraps, the others keep their width and stand to the right. */
  table(rows: readonly (readonly string[])[], indent = 2): void {
    const gap = 2;
    const cells = rows.map((row) => row.map((cell) => wrapText(cell, this.columns).join(' ')));
    const widths = (cells[0] ?? []).map((_, column) =>
      Math.max(...cells.map((row) => displayWidth(row[column] ?? ''))),
    );
    const fixedWidth = widths.slice(1).reduce((sum, width) => sum + width + gap, 0);
    const room = Math.max(10, this.columns - indent - fixedWidth);
    const first = Math.min(widths[0] ?? 0, room);
    for (const row of cells) {
      const [name = '', ...rest] = row;
      (name === '' ? [''] : wrapText(name, first)).forEach((line, index) => {
        const padded = line + ' '.repeat(first - displayWidth(line));
        const others = rest.map((cell, i) => ' '.repeat(gap + widths[i + 1]! - displayWidth(cell)) + cell);
        this.lines.push((' '.repeat(indent) + (index === 0 ? padded + others.join('') : line)).trimEnd());
      });
    }
  }

  /** Lines drawn in letters, as they are; they hold nothing that came from a file. */
  drawing(lines: readonly string[]): void {
    this.lines.push(...lines);
  }

  /** The whole page, with a line break at its end and never more than two empty lines in a row. */
  toString(): string {
    return `${this.lines
      .join('\n')
      .replace(/\n{4,}/g, '\n\n\n')
      .trim()}\n`;
  }

  private inked(text: string, ink: Ink): string {
    if (!this.color || ink === 'plain') return text;
    const [on, off] = ansi[ink];
    return `\u001b[${on}m${text}\u001b[${off}m`;
  }
}
