import { encodeText } from './encode-text.ts';
import type { C3dParameter } from './parameter.ts';

/** Parameters as writeC3d takes them, with the dimensions their values need. */
export function wordParameter(name: string, ...values: number[]): C3dParameter {
  return { name, description: '', type: 'int16', dimensions: values.length === 1 ? [] : [values.length], values };
}

export function floatParameter(name: string, ...values: number[]): C3dParameter {
  return { name, description: '', type: 'float', dimensions: values.length === 1 ? [] : [values.length], values };
}

export function textParameter(name: string, value: string): C3dParameter {
  return { name, description: '', type: 'char', dimensions: [encodeText(value).length], values: [value] };
}

/** One string for each value, all as long as the longest. */
export function textsParameter(name: string, values: readonly string[]): C3dParameter {
  const length = values.reduce((longest, value) => Math.max(longest, encodeText(value).length), 1);
  return { name, description: '', type: 'char', dimensions: [length, values.length], values };
}

/** Name, NAME2, NAME3 and so on, as many as the labels need: a dimension byte and a record each hold only so much. */
export function labelParameters(name: string, labels: readonly string[]): C3dParameter[] {
  const longest = labels.reduce((length, label) => Math.max(length, encodeText(label).length), 1);
  // 127 letters times 255 labels is about what the signed next-offset of a record can span.
  const perParameter = Math.min(255, Math.floor(32000 / longest));
  const parameters: C3dParameter[] = [];
  for (let first = 0; first === 0 || first < labels.length; first += perParameter) {
    const suffix = first === 0 ? '' : String(parameters.length + 1);
    const part = textsParameter(`${name}${suffix}`, labels.slice(first, first + perParameter));
    parameters.push({ ...part, dimensions: [longest, part.values.length] });
  }
  return parameters;
}
