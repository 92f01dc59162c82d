import { analogTexts } from '../c3d/analog-scaling.ts';
import type { C3dFile, C3dParameter } from '../c3d/read-c3d.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { ForcePlate, PlateType, UnusablePlate } from './plate.ts';
import { plateAxes } from './plate-axes.ts';

export interface PlatesOfFile {
  readonly plates: readonly ForcePlate[];
  readonly unusable: readonly UnusablePlate[];
}

/** No laboratory has more; a damaged count would fill pages. */
const mostPlates = 32;

const channelCount: Readonly<Record<PlateType, number>> = { 1: 6, 2: 6, 3: 8, 4: 6 };

/**
 * The force plates that a file describes in its FORCE_PLATFORM group (C3D user guide, "The FORCE_PLATFORM group"),
 * whatever was recorded on them. One that is described in part is told with the reason, never guessed at.
 */
export function readPlates(file: C3dFile): PlatesOfFile {
  const parameters = file.groups.get('FORCE_PLATFORM')?.parameters;
  const numbers = (name: string): readonly number[] => numbersOf(parameters?.get(name));
  const used = numbers('USED')[0] ?? numbers('TYPE').length;
  const count = Number.isInteger(used) ? Math.min(Math.max(0, used), mostPlates) : 0;
  const plates: ForcePlate[] = [];
  const unusable: UnusablePlate[] = [];
  for (let index = 0; index < count; index++) {
    const stated = numbers('TYPE')[index];
    const type = stated !== undefined && Number.isFinite(stated) ? stated : null;
    const read = readPlate(file, index, type, numbers, parameters?.get('CHANNEL'));
    if (typeof read === 'string') unusable.push({ number: index + 1, type, reason: read });
    else plates.push(read);
  }
  return { plates, unusable };
}

/** The plate, or why it cannot be used. */
function readPlate(
  file: C3dFile,
  index: number,
  type: number | null,
  numbers: (name: string) => readonly number[],
  channelParameter: C3dParameter | undefined,
): ForcePlate | string {
  if (!isPlateType(type)) {
    return type === null ? 'the file states no type for it' : `its type is ${type}, and types 1 to 4 are known here`;
  }
  const rows = channelParameter?.dimensions[0] ?? channelCount[type];
  const listed = numbers('CHANNEL').slice(index * rows, index * rows + channelCount[type]);
  const channels = listed.map((channel) => channel - 1);
  if (rows < channelCount[type] || channels.length < channelCount[type]) {
    return `type ${type} needs ${channelCount[type]} channels, and FORCE_PLATFORM:CHANNEL names ${Math.min(rows, listed.length)}`;
  }
  const { channels: inFile } = file.analog;
  if (!channels.every(Number.isInteger)) return 'one of its channels is no whole number';
  const beyond = channels.find((channel) => channel < 0 || channel >= inFile);
  if (beyond !== undefined) return `it names channel ${beyond + 1}, and the file holds ${inFile}`;
  if (new Set(channels).size < channels.length) return 'one of its channels is named twice';

  const corners = numbers('CORNERS').slice(index * 12, index * 12 + 12);
  const fourCorners = [0, 3, 6, 9].map((at) => tripleAt(corners, at));
  if (fourCorners.includes(null)) return 'its four corners are not recorded';
  const outline = fourCorners as unknown as ForcePlate['corners'];
  if (plateAxes(outline) === null) return 'its four corners span no surface';
  const origin = tripleAt(numbers('ORIGIN'), index * 3);
  if (origin === null) return 'FORCE_PLATFORM:ORIGIN has nothing for it';

  let calibration: readonly number[] | null = null;
  if (type === 4) {
    calibration = numbers('CAL_MATRIX').slice(index * 36, index * 36 + 36);
    if (calibration.length < 36 || !calibration.every(Number.isFinite))
      return 'type 4 needs a calibration matrix of six by six numbers, and FORCE_PLATFORM:CAL_MATRIX has none for it';
  } else {
    const unit = electricalUnit(file, channels);
    if (unit !== null) return `its channels are stored in ${unit}, not as forces`;
  }
  return { number: index + 1, type, channels, corners: outline, origin, calibration };
}

function isPlateType(type: number | null): type is PlateType {
  return type === 1 || type === 2 || type === 3 || type === 4;
}

function numbersOf(parameter: C3dParameter | undefined): readonly number[] {
  return parameter === undefined || parameter.type === 'char' ? [] : (parameter.values as readonly number[]);
}

function tripleAt(numbers: readonly number[], at: number): Vec3 | null {
  const triple = numbers.slice(at, at + 3);
  return triple.length === 3 && triple.every(Number.isFinite) ? (triple as Vec3) : null;
}

/** Signals as they come from the amplifier stand for no force without more than the file tells. */
function electricalUnit(file: C3dFile, channels: readonly number[]): string | null {
  const units = analogTexts(file.groups, 'UNITS', file.analog.channels);
  const electrical = channels.map((channel) => units[channel]!.trim()).find((unit) => /^[mµu]?v(olts?)?$/i.test(unit));
  return electrical === undefined ? null : 'volts';
}
