import type { Session } from '../session/session.ts';

export type AgedAndSexed = Pick<Session['subject'], 'ageYears' | 'sex'>;

/** Median stature in mm at whole ages; CDC 2000 growth charts, from memory, to 1 cm. */
const ages = [4, 6, 8, 10, 12, 14, 16, 18] as const;
const medians = {
  male: [1020, 1155, 1280, 1385, 1490, 1640, 1735, 1760],
  female: [1010, 1150, 1280, 1380, 1510, 1605, 1625, 1630],
} as const;

/** Median stature at an age, straight between the ages of the table; null outside it or where no age is recorded. */
export function medianStatureMm({ ageYears, sex }: AgedAndSexed): number | null {
  if (ageYears === null || ageYears < ages[0] || ageYears > ages.at(-1)!) return null;
  const next = ages.findIndex((age) => age >= ageYears);
  const at = (column: readonly number[]): number => {
    if (next === 0) return column[0]!;
    const share = (ageYears - ages[next - 1]!) / (ages[next]! - ages[next - 1]!);
    return column[next - 1]! + share * (column[next]! - column[next - 1]!);
  };
  return sex === null ? (at(medians.male) + at(medians.female)) / 2 : at(medians[sex]);
}
