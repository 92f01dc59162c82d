/** A step of a JSON pointer (RFC 6901). */
export function pointerStep(key: string): string {
  return `/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`;
}

export function pointerSteps(pointer: string): string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** The value that a JSON pointer names; undefined where there is none. */
export function valueAt(data: unknown, pointer: string): unknown {
  return pointerSteps(pointer === '/' ? '' : pointer).reduce<unknown>(
    (value, step) =>
      value !== null && typeof value === 'object' && Object.hasOwn(value, step)
        ? (value as Record<string, unknown>)[step]
        : undefined,
    data,
  );
}
