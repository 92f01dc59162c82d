import type { C3dProcessor } from './byte-reader.ts';
import { ieeeToDecBits } from './dec-float.ts';

/** Writes numbers in the byte order of a processor, one after the other, growing as needed. */
export class ByteWriter {
  readonly #processor: C3dProcessor;
  readonly #littleEndian: boolean;
  #view = new DataView(new ArrayBuffer(1024));
  #length = 0;

  constructor(processor: C3dProcessor) {
    this.#processor = processor;
    this.#littleEndian = processor !== 'mips';
  }

  get length(): number {
    return this.#length;
  }

  get bytes(): Uint8Array {
    return new Uint8Array(this.#view.buffer, 0, this.#length);
  }

  /** Room for `count` more bytes, zero; returns where they start. */
  #claim(count: number): number {
    const start = this.#length;
    this.#length += count;
    if (this.#length > this.#view.byteLength) {
      const grown = new Uint8Array(Math.max(this.#length, 2 * this.#view.byteLength));
      grown.set(new Uint8Array(this.#view.buffer, 0, start));
      this.#view = new DataView(grown.buffer);
    }
    return start;
  }

  zeros(count: number): void {
    this.#claim(count);
  }

  /** Zeros up to the next multiple of `size`. */
  padTo(size: number): void {
    this.#claim((size - (this.#length % size)) % size);
  }

  byte(value: number): void {
    const at = this.#claim(1);
    this.#view.setUint8(at, value);
  }

  /** Signed or unsigned 16-bit word. */
  word(value: number): void {
    const at = this.#claim(2);
    this.#view.setUint16(at, value, this.#littleEndian);
  }

  wordAt(offset: number, value: number): void {
    this.#view.setUint16(offset, value, this.#littleEndian);
  }

  float(value: number): void {
    const at = this.#claim(4);
    if (this.#processor !== 'dec') {
      this.#view.setFloat32(at, value, this.#littleEndian);
      return;
    }
    this.#view.setFloat32(at, value, true);
    this.#view.setUint32(at, ieeeToDecBits(this.#view.getUint32(at, true)), true);
  }

  text(bytes: ArrayLike<number>): void {
    const at = this.#claim(bytes.length);
    for (let i = 0; i < bytes.length; i++) this.#view.setUint8(at + i, bytes[i]!);
  }
}
