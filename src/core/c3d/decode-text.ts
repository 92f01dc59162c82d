/**
 * Text of a parameter: up to the first NUL, without the padding around it. Read as UTF-8 where the bytes are valid
 * UTF-8, else as Latin-1: the format promises ASCII, and files with accents are of either kind.
 */
export function decodeText(bytes: Uint8Array, start: number, length: number): string {
  let end = start;
  while (end < start + length && bytes[end] !== 0) end++;
  return (decodeUtf8(bytes, start, end) ?? decodeLatin1(bytes, start, end)).trim();
}

function decodeLatin1(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  for (let i = start; i < end; i++) text += String.fromCharCode(bytes[i]!);
  return text;
}

function decodeUtf8(bytes: Uint8Array, start: number, end: number): string | null {
  let text = '';
  for (let i = start; i < end; ) {
    const lead = bytes[i++]!;
    if (lead < 0x80) {
      text += String.fromCharCode(lead);
      continue;
    }
    const following =
      lead >= 0xc2 && lead < 0xe0 ? 1 : lead >= 0xe0 && lead < 0xf0 ? 2 : lead >= 0xf0 && lead < 0xf5 ? 3 : 0;
    if (following === 0 || i + following > end) return null;
    let point = lead & (0x3f >> following);
    for (let n = 0; n < following; n++) {
      const next = bytes[i++]!;
      if ((next & 0xc0) !== 0x80) return null;
      point = (point << 6) | (next & 0x3f);
    }
    const overlong = (following === 2 && point < 0x800) || (following === 3 && point < 0x10000);
    if (overlong || point > 0x10ffff || (point >= 0xd800 && point < 0xe000)) return null;
    text += String.fromCodePoint(point);
  }
  return text;
}
