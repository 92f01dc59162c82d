import type { ByteReader } from './byte-reader.ts';

/** The header section (first 512-byte block), as stored. Frame numbers count from 1. */
export interface C3dHeader {
  pointCount: number;
  /** analog values in one frame: channels times samples a frame */
  analogPerFrame: number;
  firstFrame: number;
  lastFrame: number;
  /** negative: the points are floats; positive: 16-bit integers times this */
  scale: number;
  /** 512-byte block of the data section, counted from 1 */
  dataStartBlock: number;
  analogSamplesPerFrame: number;
  rateHz: number;
}

/** Reads the header in the byte order of the reader; words as in the C3D user guide, "Header section". */
export function readHeader(reader: ByteReader): C3dHeader {
  return {
    pointCount: reader.uint16(2),
    analogPerFrame: reader.uint16(4),
    firstFrame: reader.uint16(6),
    lastFrame: reader.uint16(8),
    scale: reader.float32(12),
    dataStartBlock: reader.uint16(16),
    analogSamplesPerFrame: reader.uint16(18),
    rateHz: reader.float32(20),
  };
}
