import { angleInWords } from '../moves/changes-words.ts';
import type { Report, ReportedAngles } from './report.ts';
import { decimalsOf, fixed } from './rounding.ts';
import { sentence } from './sentence.ts';
import type { TextPage } from './text-page.ts';

/** Which way each angle counts. */
export const positiveAngles =
  'Positive: pelvis tilted forward, its right side higher; flexed, adducted, in varus, turned inward; foot progression outward.';

/** Joint angles in standing, one row for both sides. */
export function writeAngles(page: TextPage, { angles }: Report): void {
  if (angles === null) return;
  page.heading('Joint angles in standing, by the lower-body model of the marker set');
  if (angles.values.length > 0) page.table([['', 'right / left', ''], ...rows(angles)]);
  for (const { side, reason } of angles.notComputed) {
    page.paragraph(sentence(`not computed on the ${side}: ${reason}`), { indent: 2, lead: '- ' });
  }
  if (angles.values.length === 0) return;
  if (angles.says !== '')
    page.paragraph(`${angles.says} Figures marked "est." rest on that.`, { indent: 2, lead: '- ' });
  page.paragraph(positiveAngles, { indent: 2, lead: '- ' });
}

function rows({ values }: ReportedAngles): string[][] {
  const names = [...new Set(values.map(({ joint, motion }) => `${joint} ${motion}`))];
  return names.map((name) => {
    const both = values.filter(({ joint, motion }) => `${joint} ${motion}` === name);
    const on = (side: string): string => {
      const found = both.find((one) => one.side === side);
      return fixed(decimalsOf.deg, found?.deg ?? null);
    };
    const figure = both[0]!.side === 'midline' ? on('midline') : `${on('right')} / ${on('left')}`;
    return [
      capital(angleInWords(both[0]!.joint, both[0]!.motion)),
      figure,
      both.some(({ estimated }) => estimated) ? 'deg est.' : 'deg',
    ];
  });
}

function capital(name: string): string {
  return name[0]!.toUpperCase() + name.slice(1);
}
