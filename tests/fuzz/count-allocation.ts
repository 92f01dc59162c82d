/**
 * Counts the bytes of every typed array that is made with a size of its own, so that a file which claims to be large
 * cannot make the reader claim memory unnoticed. Views on what exists already cost nothing and are not counted.
 */
export function countAllocation(): { bytes: number; restore(): void } {
  const counter = { bytes: 0, restore: () => {} };
  const names = ['Uint8Array', 'Int16Array', 'Int32Array', 'Uint32Array', 'Float32Array', 'Float64Array'] as const;
  const originals = names.map((name) => globalThis[name]);
  names.forEach((name, index) => {
    Object.defineProperty(globalThis, name, {
      configurable: true,
      writable: true,
      value: new Proxy(originals[index]!, {
        construct(target, args, newTarget) {
          const made = Reflect.construct(target, args, newTarget) as ArrayBufferView;
          if (made.byteLength === made.buffer.byteLength) counter.bytes += made.byteLength;
          return made;
        },
      }),
    });
  });
  counter.restore = () => {
    names.forEach((name, index) => {
      Object.defineProperty(globalThis, name, { configurable: true, writable: true, value: originals[index] });
    });
  };
  return counter;
}
