import { analogOf } from './analog-place.ts';
import { BLOCK_BYTES, ByteReader, type C3dProcessor } from './byte-reader.ts';
import { C3dError } from './c3d-error.ts';
import type { C3dWarning } from './c3d-warnings.ts';
import { type C3dHeader, readHeader } from './header.ts';
import { readLabels } from './labels.ts';
import { decideLayout } from './layout.ts';
import { type C3dGroup, readParameters } from './parameters.ts';
import { storedLongCount, storedNumber, storedText } from './point-group.ts';
import { singleText } from './warning-text.ts';

export type { C3dProcessor } from './byte-reader.ts';
export { C3dError } from './c3d-error.ts';
export type { C3dWarning, C3dWarningCode } from './c3d-warnings.ts';
export type { C3dParameter } from './parameter.ts';
export type { C3dGroup } from './parameters.ts';

/** What a C3D file states and where its data lie. */
export interface C3dDescription {
  processor: C3dProcessor;
  numberFormat: 'float' | 'int';
  pointCount: number;
  /** whole frames present in the file */
  frameCount: number;
  /** number of the first frame, as the capture counted (from 1) */
  firstFrame: number;
  /** point frames a second */
  rateHz: number | null;
  /** unit of length as stored, e.g. mm */
  units: string | null;
  /** size of one integer step in units; negative where the points are floats (then for residuals only) */
  scale: number;
  /** as stored, without padding; may be more or fewer than the points; '' where blank */
  labels: string[];
  /** keys in upper case; parameters of a group without a record are under '#' and its number */
  groups: Map<string, C3dGroup>;
  analog: { channels: number; rateHz: number | null; samplesPerFrame: number };
  /** lab axis shown to the right and upward on the screen of the capture system, e.g. '+X', '+Z' */
  screen: { x: string | null; y: string | null };
  warnings: C3dWarning[];
  /** the data section ends before the frames the file states */
  truncated: boolean;
  /** first byte of the data section */
  dataOffset: number;
  /** bytes from one frame to the next: points, four values each, then the analog values */
  frameStride: number;
  /** analog values in one frame: for each sample one value of every channel */
  analogPerFrame: number;
}

/** A C3D file, opened. No point has been decoded yet. */
export interface C3dFile extends C3dDescription {
  /** the whole file; not copied */
  bytes: Uint8Array;
}

/**
 * Opens a C3D file (C3D user guide, c3d.org): Intel, DEC and MIPS, floats and integers.
 *
 * Where header and parameters differ, a stated preference decides and a warning says so: see layout.ts for what the
 * data section holds; POINT:RATE before the header's rate; the header's first frame before the TRIAL group's, unless
 * the header's is missing or the low word of it. Nothing is allocated by a stated size before the file has it.
 * @throws {C3dError} where nothing can be read: empty, too short, or not C3D.
 */
export function readC3d(bytes: Uint8Array): C3dFile {
  return { ...describeC3d(bytes, bytes.byteLength), bytes };
}

/**
 * As much of a file as can decide how it is read: the parameter section starts in block 255 at the latest, its
 * records are looked for over four full sections, and values may overrun them by two (see readParameters).
 */
export const C3D_HEAD_BYTES = 1 << 20;

/**
 * Describes a C3D file of `byteLength` bytes from its first ones: C3D_HEAD_BYTES of them, or all there are. The same as
 * readC3d of the whole file, whatever it holds.
 * @throws {C3dError} as readC3d.
 */
export function describeC3d(head: Uint8Array, byteLength: number): C3dDescription {
  if (head.byteLength < Math.min(byteLength, C3D_HEAD_BYTES)) {
    throw new RangeError(`${head.byteLength} bytes given of ${byteLength}; ${C3D_HEAD_BYTES} or all are needed.`);
  }
  checkSignature(head, byteLength);
  const warnings: C3dWarning[] = [];
  const parameterOffset = findParameters(head, byteLength, warnings);
  const processor = readProcessor(head, byteLength, parameterOffset, warnings);
  const reader = new ByteReader(head, processor, byteLength);
  const header = readHeader(reader);
  const headerDataOffset = (header.dataStartBlock - 1) * BLOCK_BYTES;
  const section = openParameters(reader, parameterOffset, headerDataOffset, warnings);
  refuseForeign(byteLength, header, section.groups, warnings);
  const layout = decideLayout(byteLength, header, section.groups, section.endOffset, warnings);
  const rateHz = readRate(header, section.groups, warnings);
  const units = storedText(section.groups, 'POINT', 'UNITS');
  if (units === null)
    warnings.push({ code: 'units-missing', message: 'No POINT:UNITS; the unit of length is unknown.' });

  return {
    processor,
    ...layout,
    firstFrame: readFirstFrame(header, section.groups, warnings),
    rateHz,
    units,
    labels: readLabels(section.groups, layout.pointCount, warnings),
    groups: section.groups,
    analog: analogOf(header, section.groups, layout.analogPerFrame, rateHz),
    screen: { x: storedText(section.groups, 'POINT', 'X_SCREEN'), y: storedText(section.groups, 'POINT', 'Y_SCREEN') },
    warnings,
  };
}

function checkSignature(bytes: Uint8Array, byteLength: number): void {
  if (byteLength === 0) {
    throw new C3dError('empty', {
      byteOffset: 0,
      found: 'an empty file',
      expected: 'a C3D header of 512 bytes',
      remedy: 'export or copy the trial again',
    });
  }
  if (byteLength >= 2 && bytes[1] !== 0x50) {
    throw new C3dError('not-c3d', {
      byteOffset: 1,
      found: `the byte 0x${bytes[1]!.toString(16).padStart(2, '0')}`,
      expected: '0x50, the mark of a C3D file',
      remedy: 'check that this is the trial and export it as C3D',
    });
  }
  if (byteLength < BLOCK_BYTES) throw tooShort(byteLength, 'a C3D header of 512 bytes');
}

function tooShort(byteLength: number, expected: string): C3dError {
  return new C3dError('too-short', {
    byteOffset: byteLength,
    found: `the end of the file after ${byteLength} bytes`,
    expected,
    remedy: 'wait until the file is fully written, or export it again',
  });
}

/** Byte offset of the parameter section, or null where it lies beyond the file but the data do not. */
function findParameters(bytes: Uint8Array, byteLength: number, warnings: C3dWarning[]): number | null {
  let block = bytes[0]!;
  if (block < 2) {
    const message = `The header places the parameter section in block ${block}; block 2 was tried.`;
    warnings.push({ code: 'parameter-block-missing', message });
    block = 2;
  }
  const offset = (block - 1) * BLOCK_BYTES;
  if (offset + 4 <= byteLength) return offset;
  if (!headerLooksRight(bytes, byteLength, 'intel') && !headerLooksRight(bytes, byteLength, 'mips')) {
    throw tooShort(byteLength, `the parameter section at byte ${offset}`);
  }
  const message = `The parameter section should start at byte ${offset}, beyond the end of the file; only the header was used.`;
  warnings.push({ code: 'parameters-beyond-file', message });
  return null;
}

function readProcessor(
  bytes: Uint8Array,
  byteLength: number,
  parameterOffset: number | null,
  warnings: C3dWarning[],
): C3dProcessor {
  const stored = parameterOffset === null ? null : bytes[parameterOffset + 3]!;
  if (stored === 84) return 'intel';
  if (stored === 85) return 'dec';
  if (stored === 86) return 'mips';
  const looksRight = (processor: C3dProcessor) => headerLooksRight(bytes, byteLength, processor);
  const judged = !looksRight('intel') && looksRight('mips') ? 'mips' : 'intel';
  const found = stored === null ? 'There is no processor byte' : `The processor byte is ${stored}, not 84, 85 or 86`;
  warnings.push({
    code: 'processor-unknown',
    message: `${found}; the file was read as ${judged}, judged by its header.`,
  });
  return judged;
}

/** Whether the header's data start lies within the file when read in this byte order. */
function headerLooksRight(bytes: Uint8Array, byteLength: number, processor: C3dProcessor): boolean {
  const { dataStartBlock } = readHeader(new ByteReader(bytes, processor));
  return dataStartBlock >= 2 && (dataStartBlock - 1) * BLOCK_BYTES < byteLength;
}

/** A file that bears the mark by chance: no processor, no POINT group, and a header that leads nowhere. */
function refuseForeign(
  byteLength: number,
  header: C3dHeader,
  groups: Map<string, C3dGroup>,
  warnings: readonly C3dWarning[],
): void {
  if (groups.has('POINT') || !warnings.some(({ code }) => code === 'processor-unknown')) return;
  const dataOffset = (header.dataStartBlock - 1) * BLOCK_BYTES;
  if (dataOffset < byteLength) return;
  throw new C3dError('not-c3d', {
    byteOffset: 16,
    found: `data from byte ${dataOffset}, beyond the end of the file, no processor byte and no POINT group`,
    expected: 'the header and parameters of a C3D file',
    remedy: 'check that this is the trial and export it as C3D',
  });
}

function openParameters(reader: ByteReader, offset: number | null, dataOffset: number, warnings: C3dWarning[]) {
  if (offset === null) return { groups: new Map<string, C3dGroup>(), endOffset: BLOCK_BYTES };
  return readParameters(reader, offset, dataOffset, warnings);
}

/** The two single-precision rates are the same number or, by rounding in some writers, nearly so. */
const RATE_TOLERANCE = 1e-4;

function readRate(header: C3dHeader, groups: Map<string, C3dGroup>, warnings: C3dWarning[]): number | null {
  const stored = storedNumber(groups, 'POINT', 'RATE');
  const inHeader = Number.isFinite(header.rateHz) && header.rateHz > 0 ? header.rateHz : null;
  if (stored === null || stored <= 0) {
    const used = inHeader === null ? 'the rate is unknown' : `the header's ${singleText(inHeader)} was used`;
    warnings.push({ code: 'rate-missing', message: `No usable POINT:RATE; ${used}.` });
    return inHeader;
  }
  if (inHeader !== null && Math.abs(stored - inHeader) > RATE_TOLERANCE * stored) {
    const message = `POINT:RATE is ${singleText(stored)}, the header's rate ${singleText(inHeader)}; POINT:RATE was used.`;
    warnings.push({ code: 'rate-disagrees', message });
  }
  return stored;
}

function readFirstFrame(header: C3dHeader, groups: Map<string, C3dGroup>, warnings: C3dWarning[]): number {
  const start = storedLongCount(groups, 'TRIAL', 'ACTUAL_START_FIELD');
  const first = header.firstFrame;
  if (start === null || start === 0 || start === first) return first;
  // The header's word cannot hold more than 65535: writers then leave 0, the limit, or the low word.
  if (first === 0 || (start > 65535 && (first === 65535 || first === start % 65536))) return start;
  const message = `The header's first frame is ${first}, TRIAL:ACTUAL_START_FIELD ${start}; the header was used.`;
  warnings.push({ code: 'first-frame-disagrees', message });
  return first;
}
