import { expect, test } from 'vitest';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';

function refusalOf(parse: () => unknown): string {
  try {
    parse();
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('It was not refused.');
}

// What JSON.parse says quotes the text around the fault as it is: escapes, line breaks and all.
test.each(['{"a\u001b[31m": \u0000}', '{\n"a": "\u202e\u2028",\r\n\u0007}', '\u001b]0;title\u0007', '{"a":\ud800}'])(
  'the refusal of what is no JSON holds no character that a terminal obeys: %j',
  (text) => {
    for (const parse of [() => parseMarkerSet(text, ''), () => parseSession(text)]) {
      expect(refusalOf(parse)).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
    }
  },
);
