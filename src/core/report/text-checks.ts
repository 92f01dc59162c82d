import type { Unit } from '../rule-kinds/rule-kind.ts';
import { counted } from './counted.ts';
import type { Report, ReportedRule, ReportedStance, RuleStatus } from './report.ts';
import { decimalsOf, fixed } from './rounding.ts';
import { ruleName } from './rule-name.ts';
import { sentence } from './sentence.ts';
import type { Ink, TextPage } from './text-page.ts';

const notPassed: readonly { status: RuleStatus; word: string; ink: Ink }[] = [
  { status: 'fail', word: 'Fail', ink: 'red' },
  { status: 'borderline', word: 'Borderline', ink: 'yellow' },
  { status: 'accepted', word: 'Accepted', ink: 'bold' },
];

const unitWords: Readonly<Record<Unit, string>> = { mm: ' mm', deg: ' deg', ratio: '' };

/** Rules that failed, are borderline or were accepted, with everything known about each. */
export function writeNotPassed(page: TextPage, { rules, moves }: Report): void {
  const shown = notPassed.flatMap((kind) =>
    rules.filter((rule) => rule.status === kind.status).map((rule) => ({ ...kind, rule })),
  );
  if (shown.length === 0) return;
  const again = moves.find(({ action }) => action === 'stand-again');
  page.heading(`Not passed (${shown.length})`);
  for (const { rule, word, ink } of shown) {
    page.blank();
    page.paragraph(`${ruleName(rule)} (${rule.id})`, { indent: 2, lead: `${word}: `, ink });
    page.paragraph(figures(rule), { indent: 4 });
    if (again?.resolves.includes(rule.id)) {
      page.paragraph(sentence(rule.says), { indent: 4 });
      page.paragraph(`The stance may explain it: step ${again.step}.`, { indent: 4 });
      continue;
    }
    for (const [lead, text] of [
      ['', rule.says],
      [rule.status === 'accepted' ? 'Accepted: ' : 'Note: ', rule.reason],
      ['Why: ', rule.why],
      ['Look: ', rule.seen],
    ] as const) {
      if (text !== '') page.paragraph(sentence(text), { indent: 4, lead });
    }
  }
}

function figures(rule: ReportedRule): string {
  const { unit, value, uncertainty } = rule;
  const parts = [`${figure(value, unit)}${unitWords[unit]}`, `allowed ${allowedOf(rule)}${unitWords[unit]}`];
  if (uncertainty !== null) parts.push(`uncertainty ${figure(uncertainty, unit)}${unitWords[unit]} (1 SD)`);
  return parts.join('; ');
}

const bases = [
  { basis: 'construction', title: 'as the protocol places the markers' },
  { basis: 'anatomy', title: 'as bodies usually are' },
] as const;

export function writePassed(page: TextPage, rules: readonly ReportedRule[]): void {
  for (const { basis, title } of bases) {
    const passed = rules.filter((rule) => rule.status === 'pass' && rule.basis === basis);
    if (passed.length === 0) continue;
    page.heading(`Passed, ${title} (${passed.length})`);
    const pairs = pairSides(passed);
    const value = pairs.some((pair) => pair.length === 2) ? 'right / left' : 'value';
    page.table([['', value, 'allowed', ''], ...pairs.map(passedRow)]);
  }
}

/** One row for both sides where they are allowed the same, right before left. */
function pairSides(rules: readonly ReportedRule[]): [ReportedRule, ReportedRule?][] {
  const rows: [ReportedRule, ReportedRule?][] = [];
  for (const rule of rules) {
    const last = rows.at(-1);
    const isPair =
      last?.length === 1 &&
      last[0].side === 'right' &&
      rule.side === 'left' &&
      last[0].title === rule.title &&
      last[0].unit === rule.unit &&
      allowedOf(last[0]) === allowedOf(rule);
    if (isPair) last.push(rule);
    else rows.push([rule]);
  }
  return rows;
}

function passedRow([rule, left]: readonly [ReportedRule, ReportedRule?]): string[] {
  const value = figure(rule.value, rule.unit);
  return [
    left ? rule.title : ruleName(rule),
    left ? `${value} / ${figure(left.value, left.unit)}` : value,
    allowedOf(rule),
    unitWords[rule.unit].trim(),
  ];
}

/** Rules that could not be judged, gathered by their reason. */
/** What stays unseen even where every check could be made. */
export function writeUnseen(page: TextPage, { coverage }: Report): void {
  if (coverage.unseen.length === 0) return;
  page.heading('Not seen by any check: only palpation tells');
  for (const { says } of coverage.unseen) page.paragraph(sentence(says), { indent: 2, lead: '- ' });
}

export function writeNotAssessed(page: TextPage, report: Report): void {
  const byReason = new Map<string, string[]>();
  const rules = report.rules.filter((rule) => rule.status === 'not-assessed');
  if (rules.length === 0) return;
  for (const rule of rules) {
    const name = rule.essential ? `${ruleName(rule)} (essential)` : ruleName(rule);
    byReason.set(rule.reason, [...(byReason.get(rule.reason) ?? []), name]);
  }
  page.heading(`Could not be checked (${rules.length})`);
  for (const [reason, names] of byReason) {
    page.paragraph(reason === '' ? 'No reason given.' : sentence(reason), { indent: 2, lead: '- ' });
    const count = counted(names.length, 'check');
    // One reason for everything, such as an unreadable file, needs no list of names.
    const every = names.length === report.rules.length;
    page.paragraph(every ? `Every check (${count}).` : `${count}: ${names.join('; ')}`, { indent: 4 });
  }
}

export function writeStance(page: TextPage, stance: ReportedStance | null): void {
  if (!stance || (stance.measures.length === 0 && stance.loadShare === null)) return;
  page.heading('Stance');
  if (stance.measures.length > 0) {
    page.table([
      ['', 'value', 'usual', '', ''],
      ...stance.measures.map((measure) => [
        ruleName(measure),
        figure(measure.value, measure.unit),
        rangeInWords(measure.range, measure.unit),
        unitWords[measure.unit].trim(),
        [statusWord(measure.status), measure.estimated ? 'est.' : ''].filter((word) => word !== '').join(', '),
      ]),
    ]);
  }
  if (stance.loadShare !== null) {
    page.paragraph(`${fixed(0, stance.loadShare * 100)} % of the weight is on the right foot.`, { indent: 2 });
  }
  for (const measure of stance.measures) {
    if (measure.status !== 'pass' && measure.says !== '')
      page.paragraph(sentence(measure.says), { indent: 2, lead: '- ' });
  }
}

function statusWord(status: ReportedStance['measures'][number]['status']): string {
  return status === 'fail' ? 'outside' : status === 'pass' ? '' : status;
}

function figure(value: number | null, unit: Unit): string {
  return fixed(decimalsOf[unit], value);
}

function allowedOf({ target, range, limit, unit }: ReportedRule): string {
  if (range !== undefined) return rangeInWords(range, unit);
  if (target === undefined || limit === null) return '-';
  return rangeInWords([target - limit, target + limit], unit);
}

function rangeInWords([low, high]: readonly [number | null, number | null], unit: Unit): string {
  if (low !== null && high !== null) return `${figure(low, unit)} to ${figure(high, unit)}`;
  if (low !== null) return `at least ${figure(low, unit)}`;
  return high === null ? '-' : `at most ${figure(high, unit)}`;
}
