/** A clause as marker sets write it ("the right ASIS sits 12 mm higher") as a sentence; empty stays empty. */
export function sentence(clause: string): string {
  const text = clause.trim().replace(/[.;,]+$/, '');
  return text === '' ? '' : `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}
