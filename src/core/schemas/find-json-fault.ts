import { pointerStep } from './json-pointer.ts';
import { quoted } from './show-value.ts';

/** Where a text stops being JSON (RFC 8259), or says one thing twice. */
export interface JsonFault {
  /** The innermost value around the place. */
  readonly pointer: string;
  /** Both from 1; characters in UTF-16 units, as editors count them. */
  readonly line: number;
  readonly character: number;
  readonly trouble: string;
}

/** A list or object that is open at the place reached. */
interface Open {
  readonly close: ']' | '}';
  /** Names met so far; null for a list. */
  readonly keys: Set<string> | null;
  /** Pointer step of the value that is read. */
  step: string;
  index: number;
}

const deepest = 64;

/**
 * The first fault of a text that should be JSON, in words of its own: engines word theirs differently and quote the
 * file unescaped. Also refuses what JSON allows but nobody means: a field written twice, of which one would be lost,
 * and nesting deeper than 64.
 */
export function findJsonFault(text: string): JsonFault | null {
  const open: Open[] = [];
  let at = 0;

  const skip = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  const fault = (trouble: string): JsonFault => ({
    pointer: pointerTo(open),
    line: text.slice(0, at).split('\n').length,
    character: at - text.lastIndexOf('\n', at - 1),
    trouble,
  });
  const unexpected = (expected: string, remedy: string): JsonFault => {
    const found = at < text.length ? quoted(String.fromCodePoint(text.codePointAt(at)!)) : 'the end of the file';
    return fault(`found ${found}, expected ${expected}; ${remedyFor(text[at]) ?? remedy}`);
  };
  const string = (): string | JsonFault => {
    const end = stringEnd(text, at);
    if (typeof end === 'string') return fault(end);
    const content = text.slice(at, end);
    at = end;
    return content;
  };
  /** Reads up to where the next value of the innermost list or object starts. */
  const toNextValue = (inner: Open): JsonFault | null => {
    inner.step = '';
    if (inner.keys === null) {
      inner.step = pointerStep(String(inner.index));
      inner.index += 1;
      return null;
    }
    skip(blank);
    if (text[at] !== '"') return unexpected('a field name in double quotes', 'correct it there');
    const start = at;
    const read = string();
    if (typeof read !== 'string') return read;
    const key: string = JSON.parse(read);
    if (inner.keys.has(key)) {
      at = start;
      return fault(`found the field ${quoted(key)} twice in one object, so that one would be lost; take one out`);
    }
    inner.keys.add(key);
    inner.step = pointerStep(key);
    skip(blank);
    if (text[at] !== ':') return unexpected('a colon after the field name', 'write it before that');
    at += 1;
    return null;
  };

  for (;;) {
    skip(blank);
    const first = text[at];
    if (first === '{' || first === '[') {
      if (open.length === deepest)
        return fault(`found more than ${deepest} levels inside each other; write it flatter`);
      const inner: Open = {
        close: first === '{' ? '}' : ']',
        keys: first === '{' ? new Set() : null,
        step: '',
        index: 0,
      };
      open.push(inner);
      at += 1;
      skip(blank);
      if (text[at] !== inner.close) {
        const broken = toNextValue(inner);
        if (broken !== null) return broken;
        continue;
      }
    } else if (first === '"') {
      const read = string();
      if (typeof read !== 'string') return read;
    } else if (!skip(word)) {
      const start = at;
      if (!skip(number)) return unexpected(valueWords, 'correct it there');
      if (!Number.isFinite(Number(text.slice(start, at)))) {
        at = start;
        return fault('found a number that is too large to be meant, expected an ordinary one; correct it');
      }
    }
    // A value is behind, or an empty list or object is open: close what ends here.
    for (;;) {
      skip(blank);
      const inner = open.at(-1);
      if (inner === undefined) return at === text.length ? null : unexpected('nothing more', 'take it out');
      if (text[at] === inner.close) {
        open.pop();
        at += 1;
        continue;
      }
      if (text[at] !== ',') return unexpected(`a comma or "${inner.close}"`, 'write it before that');
      at += 1;
      const broken = toNextValue(inner);
      if (broken !== null) return broken;
      break;
    }
  }
}

const valueWords = 'a value: a text in double quotes, a number, true, false, a list or an object';
const number = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const word = /true|false|null/y;
const blank = /[ \t\n\r]*/y;

/** What people do who do not write JSON every day. */
function remedyFor(found: string | undefined): string | null {
  if (found === undefined) return 'check that the whole file was saved';
  if (found === ']' || found === '}') return 'take out the comma before it, or write what is missing';
  if (found === '/' || found === '#') return 'take the comment out, JSON has none';
  if (/[0-9]/.test(found)) return 'write decimals with a point, or the missing sign before it';
  if (/['\u2018-\u201f]/.test(found)) return 'write straight double quotes';
  return null;
}

/** Pointer to the value being read, as far as its steps are short and plain. */
function pointerTo(open: readonly Open[]): string {
  let pointer = '';
  for (const { step } of open) {
    if (step === '' || step.length > 80 || pointer.length > 120 || /\p{C}|\p{Zl}|\p{Zp}/u.test(step)) break;
    pointer += step;
  }
  return pointer === '' ? '/' : pointer;
}

/** Offset behind the closing quote of the string that opens at `start`, or what is wrong with it. */
function stringEnd(text: string, start: number): number | string {
  for (let at = start + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x22) return at + 1;
    if (code < 0x20)
      return 'found a text that does not end on its line, expected a closing quote; write it on one line';
    if (code !== 0x5c) continue;
    at += 1;
    if (text[at] === 'u' && /^[0-9a-fA-F]{4}$/.test(text.slice(at + 1, at + 5))) at += 4;
    else if (!'"\\/bfnrt'.includes(text[at] ?? ' '))
      return 'found a text with a backslash that means nothing; take it out';
  }
  return 'found a text that never ends, expected a closing quote; write it';
}
