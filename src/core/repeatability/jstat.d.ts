declare module 'jstat' {
  /** F distribution: the value below which a share `p` lies. */
  export const centralF: { inv(p: number, df1: number, df2: number): number };
  const all: { centralF: typeof centralF };
  export default all;
}
