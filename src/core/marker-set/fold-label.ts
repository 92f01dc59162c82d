/** A label as it is compared: letter case, spaces and punctuation do not matter. */
export function foldLabel(label: string): string {
  return label.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}
