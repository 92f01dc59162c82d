/** What the pages under docs are made of, as far as they are printed on a terminal. */
export type Block =
  | { readonly kind: 'heading'; readonly level: number; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'item'; readonly text: string }
  | { readonly kind: 'code'; readonly lines: readonly string[] }
  | { readonly kind: 'table'; readonly rows: readonly (readonly string[])[] };

/**
 * The blocks of a page, in order and in plain text: marks, link targets, drawings and comments are left out. The first
 * row of a table is its head.
 */
export function markdownBlocks(page: string): Block[] {
  const blocks: Block[] = [];
  const lines = page.replaceAll(/<!--[\s\S]*?-->/g, '').split(/\r?\n/);
  for (let at = 0; at < lines.length; ) {
    const start = at;
    const line = lines[at++]!;
    const run = (goesOn: (line: string) => boolean): string[] => {
      while (at < lines.length && goesOn(lines[at]!)) at++;
      return lines.slice(start, at);
    };
    const [, marks, title] = /^(#{1,6}) (.*)$/.exec(line) ?? [];
    if (marks !== undefined) blocks.push({ kind: 'heading', level: marks.length, text: plain(title!) });
    else if (line.startsWith('```')) {
      const code = run((next) => !next.startsWith('```')).slice(1);
      at++;
      blocks.push({ kind: 'code', lines: code });
    } else if (line.startsWith('|')) {
      const rows = run((next) => next.startsWith('|')).map((row) => row.split('|').slice(1, -1).map(plain));
      blocks.push({ kind: 'table', rows: rows.filter((cells) => !cells.every((cell) => /^:?-+:?$/.test(cell))) });
    } else if (line.startsWith('- ')) {
      blocks.push({
        kind: 'item',
        text: plain(
          run((next) => /^ {2,}\S/.test(next))
            .join(' ')
            .slice(2),
        ),
      });
    } else if (line.trim() !== '') {
      const text = plain(run((next) => next.trim() !== '' && !/^(#{1,6} |```|\||- )/.test(next)).join(' '));
      if (text !== '') blocks.push({ kind: 'paragraph', text });
    }
  }
  return blocks;
}

/** Text without its marks. What stands between backticks is kept to the letter: `R_GT` has no emphasis in it. */
function plain(marked: string): string {
  const parts = marked.trim().split(/(`[^`]*`)/);
  const text = parts.map((part) => (/^`.*`$/.test(part) ? part.slice(1, -1) : withoutMarks(part))).join('');
  return text.replaceAll(/ {2,}/g, ' ').trim();
}

function withoutMarks(text: string): string {
  return text
    .replaceAll(/!\[[^\]]*\]\([^)]*\)/g, '')
    .replaceAll(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replaceAll(/\*\*/g, '')
    .replaceAll(/(?<![\p{L}\p{N}])_|_(?![\p{L}\p{N}])/gu, '');
}
