import { analogTexts } from '../c3d/analog-scaling.ts';
import type { C3dFile } from '../c3d/read-c3d.ts';
import type { ForcePlate } from './plate.ts';

/** Newtons in one unit of force: what ANALOG:UNITS of the plate's first channel says; newtons where it says nothing. */
export function newtonsPer(file: C3dFile, plate: ForcePlate): number {
  const unit = unitOf(file, plate.channels[0]!);
  if (/^kn/.test(unit)) return 1000;
  if (/^lbf?s?$/.test(unit)) return 4.4482216152605;
  return 1;
}

const millimetres = { mm: 1, cm: 10, dm: 100, m: 1000 } as const;

/**
 * Millimetres in one unit of length of the moments (of the places, for type 1): what ANALOG:UNITS of the plate's fourth
 * channel says, such as Nmm or Nm; the unit of the points where it says nothing, and after a calibration matrix.
 */
export function momentMillimetres(file: C3dFile, plate: ForcePlate, millimetresPerUnit: number): number {
  if (plate.type === 4 || plate.type === 3) return millimetresPerUnit;
  const [, length] = /(mm|cm|dm|m)$/.exec(unitOf(file, plate.channels[3]!)) ?? [];
  return length === undefined ? millimetresPerUnit : millimetres[length as keyof typeof millimetres];
}

function unitOf(file: C3dFile, channel: number): string {
  return analogTexts(file.groups, 'UNITS', channel + 1)
    [channel]!.trim()
    .toLowerCase()
    .replaceAll(/[^a-z]/g, '');
}
