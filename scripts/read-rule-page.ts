import { readFileSync } from 'node:fs';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import type { RuleDefinition } from '../src/core/marker-set/marker-set.ts';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { ruleKinds } from '../src/core/rule-kinds/all-rule-kinds.ts';
import { judge } from '../src/core/rule-kinds/allowed.ts';
import { outwardSign } from '../src/core/rule-kinds/positions.ts';
import type { Description, Lookup } from '../src/core/rule-kinds/rule-kind.ts';

const root = new URL('../', import.meta.url);

export function rulePageUrl(kind: string, ending: 'md' | 'svg'): URL {
  return new URL(`docs/rules/${kind}.${ending}`, root);
}

/** The example of a page under docs/rules: its rule on the right side, its points, and what they come to. */
export interface RulePage {
  readonly kind: string;
  readonly text: string;
  readonly headings: readonly string[];
  readonly rule: RuleDefinition;
  /** Body axes (forward, left, up), mm. */
  readonly points: ReadonlyMap<string, Vec3>;
  readonly description: Description;
  readonly judgement: 'pass' | 'borderline' | 'fail';
}

/**
 * Reads a page's table of points and its rule, and measures the one by the other.
 * @throws MarkerSetError where the rule would be refused in a marker set; RangeError where the table lacks a point.
 */
export function readRulePage(kind: string): RulePage {
  const text = readFileSync(rulePageUrl(kind, 'md'), 'utf8');
  const rule = expandExample(text);
  const { points, directions } = readTable(text);
  const { positions, lookup } = layOut(points, directions);
  const of = ruleKinds[rule.kind];
  const description = of.describe(positions, of.resolve(rule, lookup));
  return {
    kind,
    text,
    headings: [...text.matchAll(/^#{1,2} (.*)$/gm)].map((match) => match[1]!),
    rule,
    points,
    description,
    judgement: judge(description.value, description.bounds, 0),
  };
}

/** The page's JSON as a rule of the set that ships, in place of the one with the same id. */
function expandExample(text: string): RuleDefinition {
  const [, json] = /^```json\n([\s\S]*?)^```$/m.exec(text) ?? [];
  if (json === undefined) throw new RangeError('The page holds no ```json example.');
  const example = JSON.parse(json) as { id: string };
  const shipped = JSON.parse(readFileSync(new URL('shared/marker-sets/lower-limb-wands-22.json', root), 'utf8'));
  const rules = shipped.rules.filter((rule: { id: string }) => rule.id !== example.id);
  const set = parseMarkerSet(JSON.stringify({ ...shipped, rules: [example, ...rules] }), '0'.repeat(64));
  return set.rules[0]!;
}

function readTable(text: string): { points: Map<string, Vec3>; directions: Map<string, Vec3> } {
  const points = new Map<string, Vec3>();
  const directions = new Map<string, Vec3>();
  for (const [, name, direction, ...numbers] of text.matchAll(
    /^\| `([^`]+)`( \(direction\))? *\| (-?[\d.]+) *\| (-?[\d.]+) *\| (-?[\d.]+) *\|$/gm,
  )) {
    (direction === undefined ? points : directions).set(name!, numbers.map(Number) as Vec3);
  }
  return { points, directions };
}

function layOut(
  points: ReadonlyMap<string, Vec3>,
  directions: ReadonlyMap<string, Vec3>,
): { positions: Float64Array; lookup: Lookup } {
  const numbers: number[] = [];
  const put = (vector: Vec3): number => numbers.push(...vector) - 3;
  const slots = (vectors: ReadonlyMap<string, Vec3>): Map<string, number> =>
    new Map([...vectors].map(([name, vector]) => [name, put(vector)]));
  const find = (from: ReadonlyMap<string, number>, name: string): number => {
    const slot = from.get(name);
    if (slot === undefined) throw new RangeError(`The table of the page has no row for ${name}.`);
    return slot;
  };
  const pointSlots = slots(points);
  const directionSlots = slots(directions);
  const axes = new Map(
    (['right', 'left', 'both', 'midline'] as const).flatMap((side) => [
      [`${side} forward`, put([1, 0, 0])],
      [`${side} up`, put([0, 0, 1])],
      [`${side} outward`, put([0, outwardSign(side), 0])],
    ]),
  );
  return {
    positions: Float64Array.from(numbers),
    lookup: {
      point: (name) => find(pointSlots, name),
      view: (name) => find(directionSlots, name),
      axis: (segment, axis, side) =>
        segment === null ? find(axes, `${side} ${axis}`) : find(directionSlots, `${segment} ${axis}`),
      statureMm: null,
    },
  };
}

const verbs = { pass: 'passes', borderline: 'is borderline', fail: 'fails' } as const;

/** The sentence that a page must hold about its own example. */
export function sayExample({ rule, description: { value, bounds }, judgement }: RulePage): string {
  const figure = (number: number): string => {
    if (rule.unit === 'ratio') return number.toFixed(2);
    return rule.unit === 'mm' ? `${fixed(number)} mm` : `${fixed(number)}°`;
  };
  const { low, high, borderline } = bounds;
  return (
    `The value is **${figure(value)}**. Allowed is ${figure(low)} to ${figure(high)}, and from ` +
    `${figure(low + borderline)} to ${figure(high - borderline)} it is clear of the borderline band: ` +
    `this one **${verbs[judgement]}**.`
  );
}

/** One decimal, and never a minus before nothing. */
export function fixed(number: number): string {
  const text = number.toFixed(1);
  return text === '-0.0' ? '0.0' : text;
}
