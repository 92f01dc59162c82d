import { priorPeople } from '../../core/own-norms/estimate-norms.ts';
import { counted } from '../../core/report/counted.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { type TextOptions, TextPage } from '../../core/report/text-page.ts';
import type { LeftOut } from './gather-people.ts';
import type { OwnNorms } from './make-own-norms.ts';

const mostRules = 15;

const leftOutWords: Readonly<Record<LeftOut, string>> = {
  'same-person': 'another recording of a person who is in: the latest counts',
  facts: 'with recorded facts, such as a contracture, that change what is expected',
  'no-subject': 'without a subject code, so that people cannot be told apart',
  'not-assessable': 'not assessable',
  'other-set': 'judged by another marker set, or another version of it',
  unreadable: 'could not be read',
};

/** What the laboratory's people say, and what was made of it, as text. */
export function formatOwnNorms(own: OwnNorms, options: TextOptions): string {
  const { norms, base, gathered, shifted, misfit } = own;
  const page = new TextPage(options);
  const days = gathered.firstDay === null ? '' : `, ${gathered.firstDay} to ${gathered.lastDay}`;
  page.paragraph(
    `Norms ${norms.name} ${norms.version} for ${norms.markerSet.name} ${norms.markerSet.version}, from ${counted(norms.people, 'person', 'people')}${days}.`,
    { ink: 'bold' },
  );
  page.blank();
  const share = Math.round((100 * norms.people) / (norms.people + priorPeople));
  page.paragraph(
    `Drawn toward ${base.name} ${base.version}, which counts for ${priorPeople} people: the laboratory has a say of ${share} %.`,
    { indent: 2 },
  );
  if (misfit !== null) {
    page.paragraph(
      `Squared distance of these people from what is expected, for each rule, the middle one: ${fixed(2, misfit.before)} by ${base.name}, ${fixed(2, misfit.after)} by the new norms. About 1 is a fit; more, and people are doubted too soon; less, and faults pass.`,
      { indent: 2 },
    );
  }
  writeShifted(page, shifted);
  writeRules(page, own);
  const out = (Object.entries(gathered.leftOut) as [LeftOut, number][]).filter(([, count]) => count > 0);
  if (out.length > 0) page.heading('Recordings that have no say');
  for (const [reason, count] of out) page.paragraph(`${count} ${leftOutWords[reason]}`, { indent: 2, lead: '- ' });
  page.blank();
  page.paragraph(
    'Rules alone pass or fail a trial: norms only say which marker is likely off. Keep the file with the marker set, note who approved it, and make it anew when the protocol, the staff or the set changes.',
  );
  return page.toString();
}

function writeShifted(page: TextPage, shifted: OwnNorms['shifted']): void {
  if (shifted.length === 0) return;
  page.heading('This laboratory as a whole misses a target of its protocol: told, and not learnt');
  for (const { says, people, offset, interval, limit, unit } of shifted) {
    page.paragraph(
      `${sentence(`On average over ${counted(people, 'person', 'people')} ${says}`)} Mean ${fixed(1, offset)} ${unit} (over all rules together ${fixed(1, interval[0])} to ${fixed(1, interval[1])}); allowed in a single trial: ${fixed(1, limit)} either way. Look at how it is taught; setsquare audit says whose hands.`,
      { indent: 2, lead: '- ' },
    );
  }
}

function writeRules(page: TextPage, { rules, base }: OwnNorms): void {
  const change = (rule: OwnNorms['rules'][number]): number => Math.abs(Math.log(rule.sd / rule.priorSd));
  const own = rules.filter(({ ownSd }) => ownSd !== null).toSorted((a, b) => change(b) - change(a));
  if (own.length > 0) {
    page.heading('Spread, 1 SD: what changed most first');
    page.table([
      ['', 'people', base.name.length > 12 ? 'base' : base.name, 'own', 'new', ''],
      ...own.slice(0, mostRules).map(({ id, people, priorSd, ownSd, sd, unit, isHeld }) => {
        const decimals = unit === 'ratio' ? 3 : 1;
        return [
          id,
          String(people),
          fixed(decimals, priorSd),
          `${fixed(decimals, ownSd)}${isHeld ? '*' : ''}`,
          fixed(decimals, sd),
          unit,
        ];
      }),
    ]);
    if (own.length > mostRules)
      page.paragraph(`${counted(own.length - mostRules, 'other rule')} changed less.`, { indent: 2 });
    if (own.some(({ isHeld }) => isHeld))
      page.paragraph('* more than twice the base, or less than half: held there.', { indent: 2 });
  }
  const kept = rules.length - own.length;
  if (kept > 0)
    page.paragraph(`${counted(kept, 'rule')} with too few people ${kept === 1 ? 'keeps its' : 'keep their'} spread.`, {
      indent: 2,
    });
}
