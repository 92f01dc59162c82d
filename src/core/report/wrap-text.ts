import { escapeControls } from './escape-controls.ts';

const zeroWide = /^[\p{Mn}\p{Me}]$/u;
/** East Asian wide and full-width blocks, and pictures; rough, and never too small for what labels hold. */
const doubleWide =
  /^[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f000}-\u{1faff}\u{20000}-\u{3fffd}]$/u;

function characterWidth(character: string): number {
  if (character < '\u0300') return 1;
  if (zeroWide.test(character)) return 0;
  return doubleWide.test(character) ? 2 : 1;
}

/** Terminal columns that escaped text takes. */
export function displayWidth(text: string): number {
  let width = 0;
  for (const character of text) width += characterWidth(character);
  return width;
}

/** Escapes the text and breaks it into lines no wider than `width`, at spaces where there are any. */
export function wrapText(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  for (const word of escapeControls(text.trim()).split(/ +/)) {
    for (const piece of pieces(word, width)) {
      const wide = displayWidth(piece);
      if (line === '') {
        line = piece;
        used = wide;
      } else if (used + 1 + wide <= width) {
        line += ` ${piece}`;
        used += 1 + wide;
      } else {
        lines.push(line);
        line = piece;
        used = wide;
      }
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** A word as it is, or cut where it would not fit on a line of its own. */
function pieces(word: string, width: number): string[] {
  if (displayWidth(word) <= width) return [word];
  const cut: string[] = [];
  let piece = '';
  let used = 0;
  for (const character of word) {
    const wide = characterWidth(character);
    if (used + wide > width && piece !== '') {
      cut.push(piece);
      piece = '';
      used = 0;
    }
    piece += character;
    used += wide;
  }
  return [...cut, piece];
}
