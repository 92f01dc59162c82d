import { decToIeeeBits } from './dec-float.ts';

export type C3dProcessor = 'intel' | 'dec' | 'mips';

export const BLOCK_BYTES = 512;

/** Numbers of a file in the byte order of the processor that wrote it. Offsets count bytes from the start of the file. */
export class ByteReader {
  /** the file, or its first part */
  readonly bytes: Uint8Array;
  readonly processor: C3dProcessor;
  /** of the whole file */
  readonly byteLength: number;
  readonly #view: DataView;
  readonly #littleEndian: boolean;

  constructor(bytes: Uint8Array, processor: C3dProcessor, byteLength: number = bytes.byteLength) {
    this.bytes = bytes;
    this.processor = processor;
    this.byteLength = byteLength;
    // A pooled Buffer shares its ArrayBuffer with others: offset and length belong to the view.
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#littleEndian = processor !== 'mips';
  }

  uint8(offset: number): number {
    return this.#view.getUint8(offset);
  }

  int8(offset: number): number {
    return this.#view.getInt8(offset);
  }

  uint16(offset: number): number {
    return this.#view.getUint16(offset, this.#littleEndian);
  }

  int16(offset: number): number {
    return this.#view.getInt16(offset, this.#littleEndian);
  }

  float32(offset: number): number {
    if (this.processor !== 'dec') return this.#view.getFloat32(offset, this.#littleEndian);
    scratch.setUint32(0, decToIeeeBits(this.#view.getUint32(offset, true)));
    return scratch.getFloat32(0);
  }
}

const scratch = new DataView(new ArrayBuffer(4));
