import { BLOCK_BYTES, type C3dProcessor } from './byte-reader.ts';
import { ByteWriter } from './byte-writer.ts';
import { encodeText } from './encode-text.ts';
import type { C3dParameter } from './parameter.ts';
import type { C3dGroup } from './parameters.ts';

const typeCodes = { char: 255, byte: 1, int16: 2, float: 4 } as const;
const processorCodes = { intel: 84, dec: 85, mips: 86 } as const;

/**
 * Bytes of the parameter section, in whole blocks, with the groups numbered in the order given. POINT:DATA_START,
 * which depends on the size of this section, is set by `dataStart` once the size is known.
 * @throws {RangeError} where a record or the section is larger than the format can hold.
 */
export function writeParameters(
  processor: C3dProcessor,
  groups: readonly C3dGroup[],
  dataStart: (blocks: number) => number,
): Uint8Array {
  if (groups.length > 127) throw new RangeError(`${groups.length} parameter groups given; the format holds 127.`);
  const writer = new ByteWriter(processor);
  writer.zeros(4);
  let dataStartAt = -1;
  groups.forEach((group, index) => {
    writeRecord(writer, group.name, -(index + 1), () => writeDescription(writer, group.description));
  });
  groups.forEach((group, index) => {
    for (const parameter of group.parameters.values()) {
      writeRecord(writer, parameter.name, index + 1, () => {
        const valuesAt = writeValues(writer, `${group.name}:${parameter.name}`, parameter);
        if (group.name === 'POINT' && parameter.name === 'DATA_START') dataStartAt = valuesAt;
        writeDescription(writer, parameter.description);
      });
    }
  });
  writer.zeros(2);
  writer.padTo(BLOCK_BYTES);
  const blocks = writer.length / BLOCK_BYTES;
  if (blocks > 255) throw new RangeError(`The parameters fill ${blocks} blocks; the format holds 255: shorten labels.`);
  if (dataStartAt >= 0) writer.wordAt(dataStartAt, dataStart(blocks));
  const bytes = writer.bytes;
  bytes.set([1, 0x50, blocks, processorCodes[processor]]);
  return bytes;
}

function writeRecord(writer: ByteWriter, name: string, id: number, writeBody: () => void): void {
  const letters = encodeText(name);
  if (letters.length === 0 || letters.length > 127) {
    throw new RangeError(`The parameter name "${name}" has ${letters.length} bytes; the format holds 1 to 127.`);
  }
  writer.byte(letters.length);
  writer.byte(id & 0xff);
  writer.text(letters);
  const nextField = writer.length;
  writer.word(0);
  writeBody();
  const next = writer.length - nextField;
  if (next > 32767) throw new RangeError(`The record "${name}" fills ${next} bytes; the format holds 32767.`);
  writer.wordAt(nextField, next);
}

function writeDescription(writer: ByteWriter, description: string): void {
  const letters = encodeText(description).slice(0, 255);
  writer.byte(letters.length);
  writer.text(letters);
}

/** Type, dimensions and values; returns where the values start. */
function writeValues(writer: ByteWriter, name: string, parameter: C3dParameter): number {
  const { type, dimensions, values } = parameter;
  if (dimensions.length > 7 || dimensions.some((size) => !Number.isInteger(size) || size < 0 || size > 255)) {
    throw new RangeError(`${name} has the dimensions ${dimensions.join(' x ')}; the format holds seven of 0 to 255.`);
  }
  const counted = type === 'char' ? dimensions.slice(1) : dimensions;
  const count = counted.reduce((product, size) => product * size, 1);
  if (values.length !== count) {
    throw new RangeError(`${name} has ${values.length} values; its dimensions ask for ${count}.`);
  }
  writer.byte(typeCodes[type]);
  writer.byte(dimensions.length);
  for (const size of dimensions) writer.byte(size);
  const start = writer.length;
  for (const value of values) {
    if (type === 'char') writer.text(padded(encodeText(String(value)), dimensions[0] ?? 1));
    else if (type === 'float') writer.float(Number(value));
    else if (type === 'int16') writer.word(Number(value));
    else writer.byte(Number(value));
  }
  return start;
}

/** The letters, cut or filled with spaces to `length`. */
function padded(letters: number[], length: number): number[] {
  return [...letters.slice(0, length), ...new Array<number>(Math.max(0, length - letters.length)).fill(0x20)];
}
