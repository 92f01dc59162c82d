declare module 'jstat' {
  /** F distribution: the value below which a share `p` lies. */
  export const centralF: { inv(p: number, df1: number, df2: number): number };
  /** Student's t and chi-square: the same. */
  export const studentt: { inv(p: number, df: number): number };
  export const chisquare: { inv(p: number, df: number): number };
  const all: { centralF: typeof centralF; studentt: typeof studentt; chisquare: typeof chisquare };
  export default all;
}
