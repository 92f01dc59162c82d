import { pointerSteps, valueAt } from './json-pointer.ts';
import { quoted } from './show-value.ts';

/** What is wrong with a file: the place, and one sentence that names place and thing, says what is wrong and what to do. */
export interface Fault {
  /** JSON pointer (RFC 6901); `/` for the file as a whole. */
  readonly pointer: string;
  readonly message: string;
}

export type FileKind = 'marker set' | 'session' | 'norms' | 'study';

/** @param trouble what was found, what was expected and what to do, with neither capital nor full stop */
export function faultAt(kind: FileKind, data: unknown, pointer: string, trouble: string): Fault {
  const place = pointer === '' ? '/' : pointer;
  const thing = nameThing(data, place);
  const where = place === '/' ? '' : `, at ${place}${thing === null ? '' : ` (${thing})`}`;
  return { pointer: place, message: `${kind}${where}: ${trouble}.` };
}

/** Lists whose entries have a name of their own: what such an entry is called, and the field that names it. */
const named: Readonly<Record<string, readonly [string, string]>> = {
  '/markers': ['marker', 'label'],
  '/segments': ['segment', 'name'],
  '/virtualPoints': ['virtual point', 'name'],
  '/views': ['view', 'name'],
  '/rules': ['rule', 'id'],
  '/stance': ['stance item', 'id'],
  '/variants': ['variant', 'id'],
  '/orders': ['order of', 'first'],
  '/measurements': ['measurement', 'measure'],
  '/measurementsIn': ['measurement', 'measure'],
  '/comparisons': ['comparison', 'id'],
  '/facts/variants': ['variant', 'id'],
  '/facts/contractures': ['contracture', 'joint'],
  '/accepted': ['accepted rule', 'rule'],
  '/confirmed': ['confirmed marker', 'marker'],
  '/captures': ['capture', 'trial'],
};

/** The thing around a place by its own name: `rule "heel-level"`. */
function nameThing(data: unknown, pointer: string): string | null {
  const steps = pointerSteps(pointer);
  for (const depth of [1, 2]) {
    const list = `/${steps.slice(0, depth).join('/')}`;
    const entry = steps[depth];
    if (entry === undefined || !Object.hasOwn(named, list)) continue;
    const [what, field] = named[list]!;
    const name = valueAt(data, `${list}/${entry}/${field}`);
    // The name itself may be what is wrong; it is then told as what was found.
    return typeof name === 'string' && steps[depth + 1] !== field ? `${what} ${quoted(name)}` : null;
  }
  return null;
}
