/** Reasons that are given often; the words stand in reports. */
const words = {
  'on-the-bone': 'palpated again, on the bone',
  'measured-again': 'measured again, the same',
  'bone-shape': 'the bone is built so',
  contracture: 'a contracture holds the joint there',
  'soft-tissue': 'soft tissue lies between marker and bone',
  skin: 'the skin there does not allow a marker',
  'device-in-the-way': 'an orthosis, prosthesis or shoe is in the way',
  'cannot-stand-again': 'the patient could not stand again',
} as const;

export type ReasonCode = keyof typeof words;

/** A reason in words, from its code, the assessor's own words, or both; empty where neither was given. */
export function reasonInWords(written: { readonly reasonCode?: ReasonCode; readonly reason?: string }): string {
  const code = written.reasonCode === undefined ? '' : words[written.reasonCode];
  return [code, written.reason ?? ''].filter((text) => text !== '').join(': ');
}
