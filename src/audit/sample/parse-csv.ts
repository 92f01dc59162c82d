/**
 * Cells of a comma- or semicolon-separated text (RFC 4180; the separator is the one of the first line), with or
 * without a byte order mark. Null where a quote is left open.
 */
export function parseCsv(text: string): string[][] | null {
  const source = text.replace(/^\ufeff/, '');
  const [first = ''] = source.split(/\r?\n/, 1);
  const separator = !first.includes(',') && first.includes(';') ? ';' : ',';
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let isQuoted = false;
  const endCell = () => {
    row.push(cell);
    cell = '';
  };
  const endRow = () => {
    endCell();
    if (row.some((value) => value.trim() !== '')) rows.push(row);
    row = [];
  };
  for (let at = 0; at < source.length; at++) {
    const character = source[at]!;
    if (isQuoted) {
      if (character !== '"') cell += character;
      else if (source[at + 1] === '"') cell += source[++at];
      else isQuoted = false;
    } else if (character === '"' && cell === '') isQuoted = true;
    else if (character === separator) endCell();
    else if (character === '\n') endRow();
    else if (character !== '\r') cell += character;
  }
  if (isQuoted) return null;
  endRow();
  return rows;
}
