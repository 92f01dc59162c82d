/** A label as it is compared: letter case, spaces, punctuation and the way accents are encoded do not matter. */
export function foldLabel(label: string): string {
  return label
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '');
}
