import { fixed } from '../report/rounding.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import { type Crosstalk, isUsable, type KneeCrosstalk } from './crosstalk.ts';
import { turnBandsDeg } from './judge-knee.ts';
import { scatterPlot } from './scatter-plot.ts';

export interface CrosstalkHeading {
  /** Names of the files, without folders. */
  readonly trial: string;
  readonly static: string;
  readonly markerSet: string;
}

const headlines: Readonly<Record<Crosstalk['verdict'], string>> = {
  clear: 'Nothing to adjust at the knee axes, as far as this movement can tell.',
  adjust: 'A knee axis needs a look before the markers come off.',
  'not-usable': 'The knee axes could not be judged by this movement.',
};

const widestPlot = 80;

/** What a knee bend says of the knee axes, for a person; at most `columns` wide. */
export function formatCrosstalk(heading: CrosstalkHeading, crosstalk: Crosstalk, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(headlines[crosstalk.verdict], { ink: 'bold' });
  page.blank();
  page.paragraph(heading.trial, { lead: 'Movement:    ' });
  page.paragraph(heading.static, { lead: 'Static:      ' });
  page.paragraph(heading.markerSet, { lead: 'Marker set:  ' });
  for (const problem of crosstalk.problems) {
    page.blank();
    page.paragraph(problem, { lead: 'Error: ' });
  }
  for (const knee of crosstalk.knees) {
    page.heading(`${knee.side === 'right' ? 'Right' : 'Left'} knee`);
    if (isUsable(knee)) writeKnee(page, knee, Math.min(options.columns, widestPlot));
    else page.paragraph(`Not judged. ${knee.reason}`, { indent: 2 });
  }
  page.blank();
  page.paragraph(
    `A turn outward means: the outer end of the marked axis lies too far back. Up to ${turnBandsDeg.optimal} degrees is as good as it gets, up to ${turnBandsDeg.acceptable} acceptable. Knees are no hinges and skin slides: this is an aid for placing markers, not a correction of data.`,
  );
  page.paragraph(
    'At any tiredness, pain or dizziness: stop, offer the chair, and keep what there is. No knee bend where the protocol or the patient forbids one.',
  );
  return page.toString();
}

function writeKnee(page: TextPage, knee: KneeCrosstalk, columns: number): void {
  page.paragraph(knee.says, { indent: 2 });
  if (knee.advice !== '') page.paragraph(knee.advice, { indent: 2, lead: 'Do: ', ink: 'bold' });
  page.blank();
  const { flexionDeg, varusDeg } = knee;
  const between = ({ least, most }: KneeCrosstalk['flexionDeg']) => `${fixed(0, least)} to ${fixed(0, most)}`;
  page.table([
    ['Flexion', between(flexionDeg), 'deg'],
    ['Varus (+), valgus (-)', between(varusDeg), 'deg'],
    ['Varus for 10 degrees of flexion', fixed(1, knee.slope * 10), 'deg'],
    ['Turn of the axis, outward (+)', `${fixed(1, knee.turnDeg)} (1 SD ${fixed(1, knee.uncertaintyDeg)})`, 'deg'],
    ['Explains of the varus-valgus', fixed(0, knee.explained * 100), '%'],
    ['Shows at 60 degrees of flexion', fixed(1, knee.at60Deg), 'deg'],
    ['Turn by the steps of the static trial', fixed(1, knee.staticTurnDeg), 'deg'],
  ]);
  page.blank();
  page.paragraph('Varus (+), valgus (-) up, flexion to the right; degrees:', { indent: 2 });
  const points = knee.series.map(({ flexionDeg: x, varusDeg: y }) => ({ x, y }));
  page.drawing(scatterPlot(points, columns));
}
