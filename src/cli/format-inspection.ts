import type { InspectedMarker, InspectedPlate, Inspection } from '../core/inspect-trial.ts';
import { ownName } from '../core/report/own-name.ts';
import { fixed } from '../core/report/rounding.ts';
import { TextPage } from '../core/report/text-page.ts';

/** What a file holds, for people; positions in the file's own units and axes. */
export function formatInspection(inspection: Inspection, columns: number): string {
  const { analog, firstFrame, frames, labels, markers, plates, points, rateHz, units, warnings } = inspection;
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
  if (analog.signals.length > 0) {
    page.blank();
    page.table([
      ['analog channel', '', 'mean', 'units'],
      ...analog.signals.map(({ index, label, mean, units: unit }) => [
        label === '' ? `(channel ${index + 1})` : label,
        String(index + 1),
        fixed(3, mean),
        unit === '' ? '-' : unit,
      ]),
    ]);
  }
  if (plates.length > 0) page.blank();
  for (const plate of plates)
    page.paragraph(plateInWords(plate, units), { indent: 2, lead: `Plate ${plate.number}: ` });
  return page.toString();
}

function plateInWords({ type, channels, corners, reason }: InspectedPlate, units: string | null): string {
  if (reason !== '') return `not usable because ${reason}`;
  const decimals = units === 'm' ? 3 : 0;
  const middle = [0, 1, 2].map((axis) => corners.reduce((sum, corner) => sum + corner[axis]! / corners.length, 0));
  const unit = units === null ? '' : ` ${units}`;
  return `type ${type}, channels ${channels.join(', ')}, middle at ${middle.map((value) => fixed(decimals, value)).join(', ')}${unit}`;
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
