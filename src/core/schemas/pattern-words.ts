/** In words, what the patterns of the schemas allow; by pattern, so that the schemas stay the only place of the rule. */
const invisible = '\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}';

const words: Readonly<Record<string, string>> = {
  '^[a-z0-9][a-z0-9-]{0,63}$': 'lower-case letters, digits and hyphens, 64 at most, beginning with a letter or a digit',
  '^[0-9]+\\.[0-9]+\\.[0-9]+$': 'three whole numbers with points between them, such as 1.0.0',
  '^[0-9]{4}-[0-9]{2}-[0-9]{2}$': 'a date written year-month-day, such as 2026-03-02',
  [`^[^${invisible}{}]+$`]: 'a name without invisible characters and without braces',
  [`^(?!@)(?!\\s)[^${invisible}{}]+(?<!\\s)$`]:
    'a name without invisible characters and braces, that neither begins with @ nor begins or ends with a space',
  [`^(?=.*\\S)[^${invisible}]+$`]: 'a text that is not blank and holds no line breaks or invisible characters',
  [`^[^\\s${invisible}]+$`]: 'a code without spaces, such as MR-02, and never a name',
  [`^[^${invisible}]+$`]: 'a name without invisible characters',
  '^[^\\s:\\p{Cc}\\p{Cf}\\p{Cs}]{1,64}:[^\\s:\\p{Cc}\\p{Cf}\\p{Cs}]{1,64}$':
    'group and name of a C3D parameter with a colon between them, such as TRIAL:ASSESSOR',
};

/** @returns null for a pattern that no schema holds */
export function patternInWords(pattern: string): string | null {
  return Object.hasOwn(words, pattern) ? words[pattern]! : null;
}
