/** UTF-8 bytes of a text; ASCII, which the format asks for, stays one byte a letter. Lone surrogates become U+FFFD. */
export function encodeText(text: string): number[] {
  const bytes: number[] = [];
  for (const letter of text) {
    const stored = letter.codePointAt(0)!;
    const point = stored >= 0xd800 && stored < 0xe000 ? 0xfffd : stored;
    if (point < 0x80) bytes.push(point);
    else if (point < 0x800) bytes.push(0xc0 | (point >> 6), 0x80 | (point & 0x3f));
    else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), 0x80 | ((point >> 6) & 0x3f), 0x80 | (point & 0x3f));
    else {
      bytes.push(0xf0 | (point >> 18), 0x80 | ((point >> 12) & 0x3f));
      bytes.push(0x80 | ((point >> 6) & 0x3f), 0x80 | (point & 0x3f));
    }
  }
  return bytes;
}
