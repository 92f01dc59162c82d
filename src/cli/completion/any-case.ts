/** Pattern for an ending whatever its letter case: `[cC]3[dD]`. Capture systems write .C3D as well. */
export function anyCase(ending: string): string {
  return ending.replaceAll(/[a-z]/g, (letter) => `[${letter}${letter.toUpperCase()}]`);
}
