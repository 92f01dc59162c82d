import type { ReportedPlates } from './report.ts';
import { fixed } from './rounding.ts';
import { sentence } from './sentence.ts';
import type { TextPage } from './text-page.ts';

/** What each force plate carries, under which foot, and what they carry together. */
export function writePlates(page: TextPage, plates: ReportedPlates | null): void {
  if (plates === null) return;
  const { each, massKg, recordedMassKg, loadShareReason } = plates;
  const readable = each.filter(({ upwardN }) => upwardN !== null);
  page.heading(`Force plates (${readable.length} of ${each.length} could be read)`);
  if (readable.length > 0) {
    page.table([
      ['', 'upward force', 'under', 'presses'],
      ...readable.map(({ number, upwardN, feet, outsideFootMm }) => [
        `Plate ${number}`,
        `${fixed(0, upwardN)} N`,
        feet.length === 0 ? 'no foot' : feet.length === 1 ? `${feet[0]} foot` : 'both feet',
        outsideFootMm === null ? '-' : outsideFootMm === 0 ? 'inside' : `${fixed(0, outsideFootMm)} mm outside`,
      ]),
    ]);
  }
  if (massKg !== null) {
    const recorded = recordedMassKg === null ? 'no mass is recorded' : `recorded ${fixed(1, recordedMassKg)} kg`;
    page.paragraph(sentence(`Together they carry ${fixed(1, massKg)} kg; ${recorded}`), { indent: 2 });
  }
  if (loadShareReason !== '') page.paragraph(sentence(`No share of each foot: ${loadShareReason}`), { indent: 2 });
}
