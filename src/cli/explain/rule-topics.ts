import type { RuleDefinition } from '../../core/marker-set/marker-set.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { ruleName } from '../../core/report/rule-name.ts';
import { sentence } from '../../core/report/sentence.ts';
import type { TextPage } from '../../core/report/text-page.ts';
import { ruleKinds } from '../../core/rule-kinds/all-rule-kinds.ts';
import { boundsOf } from '../../core/rule-kinds/allowed.ts';
import type { Unit } from '../../core/rule-kinds/rule-kind.ts';
import { ruleStem } from '../../core/rules/expected-rules.ts';
import { eitherSide, grouped, type Topic, withLabels } from './topic.ts';

/** Each rule of the set, both sides in one, and each side by itself. */
export function ruleTopics(set: LoadedMarkerSet, wordMeanings: ReadonlyMap<string, string>): Topic[] {
  return grouped(set.rules, ruleStem).flatMap(([stem, rules]) => {
    const topic = (word: string, explained: readonly RuleDefinition[]): Topic => ({
      group: 'rule',
      word,
      also: [],
      listed: word === stem,
      write: (page) => writeRule(page, { word, rules: explained, set, wordMeanings }),
    });
    return [topic(stem, rules), ...rules.filter(({ id }) => id !== stem).map((rule) => topic(rule.id, [rule]))];
  });
}

interface Explained {
  readonly word: string;
  /** One rule, or the same for the right and the left side. */
  readonly rules: readonly RuleDefinition[];
  readonly set: LoadedMarkerSet;
  readonly wordMeanings: ReadonlyMap<string, string>;
}

function writeRule(page: TextPage, { word, rules, set, wordMeanings }: Explained): void {
  const [rule, other] = rules as [RuleDefinition, RuleDefinition?];
  const both = (textOf: (side: RuleDefinition) => string): string => eitherSide(textOf(rule), other && textOf(other));
  const says = (side: 'saysAbove' | 'saysBelow') =>
    sentence(
      withoutFigure(
        both((one) => one[side]),
        rule.unit,
      ),
    );
  page.paragraph(`${other ? rule.title : ruleName(rule)} (${word})`, { ink: 'bold' });
  const ids = other ? `, as ${rules.map(({ id }) => id).join(' and ')}` : '';
  const lines: [string, string][] = [
    ['Rule of', `${set.name} ${set.version}${ids}`],
    ['Kind', `${rule.kind}. ${ruleKinds[rule.kind].summary}`],
    ['Basis', [rule.basis, wordMeanings.get(rule.basis)].filter(Boolean).join(': ')],
    ['Allowed', allowedOf(rule)],
    ...rule.shiftedBy.map(({ fact, factor, widen }): [string, string] => [
      '',
      `A recorded ${fact} moves that by ${factor === 1 ? 'as much' : `${factor} of it`} and widens the limit by ${widen} of it.`,
    ]),
    ...set.variants.flatMap((variant): [string, string][] => {
      const own = Object.hasOwn(variant.allowed, ruleStem(rule)) ? variant.allowed[ruleStem(rule)]! : null;
      return own === null ? [] : [['', `With the variant ${variant.id}: ${allowedOf({ ...rule, ...own })}`]];
    }),
    ['Says', says('saysAbove')],
    ['or', says('saysBelow')],
    ['Why', rule.why],
    ['Look', sentence(rule.seen)],
    ['May move', mayMove(set, rule, other)],
    ['First', standAgain(rule, set)],
    ['Suspended', suspensions(rule, set)],
    ['Essential', rule.essential ? 'A trial in which it cannot be judged is not assessable.' : ''],
    ['Source', sentence(rule.source)],
  ];
  for (const [lead, text] of lines) {
    if (text !== '') page.paragraph(text, { indent: 2, lead: `${lead === '' ? '' : `${lead}:`}`.padEnd(11) });
  }
  page.blank();
  page.paragraph(`How it is measured: setsquare explain ${rule.kind}`);
}

/** The marker set's sentence with N for the figure that a trial gives. */
function withoutFigure(says: string, unit: Unit): string {
  const figure = { mm: 'N mm', deg: 'N°', ratio: 'N' }[unit];
  return says.replaceAll(/\{(value|size|off)\}/g, figure);
}

/** What passes, and where the borderline band begins. */
function allowedOf(rule: RuleDefinition): string {
  if (!('allowedTurn' in rule)) return inWords(boundsOf(rule.allowed, rule.borderline), rule.unit);
  const { targetDeg, limitDeg } = rule.allowedTurn;
  const turn = inWords(boundsOf({ target: targetDeg, limit: limitDeg }, rule.borderline), 'deg');
  const inMm = rule.unit === 'mm' ? '; in mm the limit follows from how far the marker stands off' : '';
  return `A turn about the bone of ${turn}${inMm}.`;
}

function inWords({ low, high, borderline }: ReturnType<typeof boundsOf>, unit: Unit): string {
  const ending = { mm: ' mm', deg: ' deg', ratio: '' }[unit];
  // 1.16 - 0.05 is 1.1099999999999999.
  const figure = (value: number): string => String(Number(value.toFixed(3)));
  const between = (from: number, to: number): string => `${figure(from)} to ${figure(to)}${ending}`;
  if (high === Number.POSITIVE_INFINITY)
    return `at least ${figure(low)}${ending}, borderline below ${figure(low + borderline)}${ending}`;
  if (low === Number.NEGATIVE_INFINITY)
    return `at most ${figure(high)}${ending}, borderline above ${figure(high - borderline)}${ending}`;
  return `${between(low, high)}, borderline outside ${between(low + borderline, high - borderline)}`;
}

/** Markers as they are called at the bedside, each with its label or, for both sides, its two. */
function mayMove(set: LoadedMarkerSet, rule: RuleDefinition, other: RuleDefinition | undefined): string {
  const named = rule.mayMove.map((label, index) => {
    const marker = set.markers.find((one) => one.label === label);
    const mirror = other?.mayMove[index] ?? label;
    const side = marker === undefined || marker.side === 'midline' || mirror !== label ? '' : `${marker.side} `;
    return withLabels(`${side}${marker?.called ?? ''}`, mirror === label ? [label] : [label, mirror]);
  });
  return sentence(named.join('; '));
}

function standAgain(rule: RuleDefinition, set: LoadedMarkerSet): string {
  const titles = rule.explainedBy.map((id) => {
    const measure = [...set.stance, ...(set.model?.posture ?? [])].find((one) => one.id === id);
    return measure === undefined ? id : ruleName(measure);
  });
  // Right and left of one look at the stance are one matter here.
  const matters = new Set(titles.map((title) => title.replace(/, (right|left)$/, '')));
  return matters.size === 0 ? '' : `Stand again where the stance explains it: ${[...matters].join('; ')}.`;
}

function suspensions(rule: RuleDefinition, set: LoadedMarkerSet): string {
  const facts = rule.suspendedBy.map((fact) => fact.replace('.', ' of the ').replaceAll('-', ' '));
  const variants = set.variants.flatMap((variant) =>
    variant.suspends
      .filter((item) => item.rule === ruleStem(rule))
      .map(({ when, unless }) => {
        const oneSide = when === 'one-side' ? ' on one side' : '';
        return `${variant.title}${oneSide}${unless === null ? '' : `, unless ${unless} is recorded`}`;
      }),
  );
  const all = [...facts, ...variants];
  return all.length === 0 ? '' : `While the session records ${all.join('; ')}.`;
}
