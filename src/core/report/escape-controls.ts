/**
 * Characters that a terminal, a page or an editor obeys instead of showing: control codes (C0, DEL, C1), invisible
 * format characters (among them all that turn the direction of writing), line and paragraph separators, and halves
 * of surrogate pairs.
 */
const obeyed = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/** Makes text from files safe to print: what would be obeyed is written out, `\u001b` for an escape. */
export function escapeControls(text: string): string {
  return text.replace(obeyed, (character) => {
    const code = character.codePointAt(0)!;
    return code > 0xffff ? `\\u{${code.toString(16)}}` : unicodeEscape(code);
  });
}

/** The same for finished JSON without line breaks of its own: the text stays the same JSON value. */
export function escapeControlsInJson(json: string): string {
  return json.replace(obeyed, (character) =>
    Array.from({ length: character.length }, (_, i) => unicodeEscape(character.charCodeAt(i))).join(''),
  );
}

function unicodeEscape(code: number): string {
  return `\\u${code.toString(16).padStart(4, '0')}`;
}
