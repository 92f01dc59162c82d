import type { InspectedMarker, Inspection } from '../core/inspect-trial.ts';
import { ownName } from '../core/report/own-name.ts';
import { fixed } from '../core/report/rounding.ts';
import { TextPage } from '../core/report/text-page.ts';

/** What a file holds, for people; positions in the file's own units and axes. */
export function formatInspection(inspection: Inspection, columns: number): string {
  const { analog, firstFrame, frames, labels, markers, points, rateHz, units, warnings } = inspection;
  const page = new TextPage({ columns, color: false });
  page.paragraph(ownName(inspection.path));
  page.paragraph(
    [
      `${points} points`,
      frames === 0 ? 'no frames' : `${frames} frames (${firstFrame} to ${firstFrame + frames - 1})`,
      rateHz === null ? 'rate unknown' : `${rate(rateHz)} Hz`,
      units === null ? 'units unknown' : `units ${units}`,
    ].join(', '),
    { indent: 2 },
  );
  page.paragraph(`${inspection.numberFormat} numbers, ${inspection.processor} byte order`, { indent: 2 });
  if (analog.channels > 0) {
    const at = analog.rateHz === null ? 'rate unknown' : `${rate(analog.rateHz)} Hz`;
    page.paragraph(`${analog.channels} analog channels, ${at}`, { indent: 2 });
  }
  for (const warning of warnings)
    page.paragraph(`${warning.message} (${warning.code})`, { indent: 2, lead: 'Warning: ' });
  if (markers.length > 0) {
    const decimals = units === 'm' ? 4 : units === 'mm' ? 1 : 3;
    page.blank();
    page.table([
      ['label', 'frames', 'mean x', 'y', 'z', 'first x', 'y', 'z'],
      ...markers.map((marker) => row(marker, decimals)),
    ]);
  }
  if (labels.length > markers.length) {
    page.paragraph(`Labels beyond the points: ${labels.slice(markers.length).join(', ')}`, { indent: 2 });
  }
  return page.toString();
}

function row(marker: InspectedMarker, decimals: number): string[] {
  const none = [null, null, null];
  const numbers = [...(marker.mean ?? none), ...(marker.firstValid ?? none)];
  const name = marker.label === '' ? `(point ${marker.index + 1})` : marker.label;
  return [name, String(marker.validFrames), ...numbers.map((value) => fixed(decimals, value))];
}

function rate(rateHz: number): string {
  return String(Number(fixed(3, rateHz)));
}
