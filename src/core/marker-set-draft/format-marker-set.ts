import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';

const presences: Readonly<Record<MarkerDefinition['presence'], string>> = {
  required: 'required',
  optional: 'optional',
  'static-only': 'static trial only',
};

/** The markers of a set, what they lie on, and the labels that files have for them. */
export function formatMarkerSet(set: MarkerSet, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(`${set.name}, version ${set.version}: ${set.title}`, { ink: 'bold' });
  page.blank();
  page.table([
    ['', 'marker', 'put on by', 'presence'],
    ...set.markers.map(({ landmark, label, side, placedBy, presence }) => [
      side === 'midline' ? landmark : `${landmark}, ${side}`,
      label,
      placedBy,
      presences[presence],
    ]),
  ]);
  const aliased = set.markers.filter(({ aliases }) => aliases.length > 0);
  if (aliased.length > 0) {
    page.heading('Labels in the files');
    for (const { label, aliases } of aliased) page.paragraph(aliases.join(', '), { indent: 2, lead: `${label}: ` });
  }
  page.blank();
  page.paragraph(`${set.rules.length} rules; setsquare explain lists them. A picture: --format svg --output set.svg.`);
  return page.toString();
}
