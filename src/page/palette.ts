/**
 * The colours of every page, as CSS variables and in pictures. Dark on light, one calm hue family with a blue and an
 * orange that people with any kind of colour blindness tell apart. None of them stands for a side of the body, and none
 * says anything that a word or a shape does not say as well.
 */
export const palette = {
  paper: '#eef2f1',
  surface: '#ffffff',
  ink: '#13242b',
  'ink-soft': '#44565e',
  line: '#b4c2c5',
  flesh: '#dbe4e4',
  'flesh-far': '#eaefee',
  'flesh-close': '#d3dede',
  'flesh-close-far': '#e2e9e8',
  band: '#bcd7d6',
  'band-edge': '#e9d596',
  used: '#d5e5e4',
  bone: '#6a7d84',
  'bone-far': '#a9b8bc',
  here: '#13242b',
  expected: '#00597a',
  arrow: '#a83a00',
  finding: '#a83a00',
  doubt: '#755200',
  good: '#0d5c63',
  unjudged: '#4c4a68',
  'finding-tint': '#fbeadf',
  'doubt-tint': '#f7edd2',
  'good-tint': '#dcebea',
  'unjudged-tint': '#e7e6ef',
} as const;

export type Colour = keyof typeof palette;

/** Text on ground, and parts of pictures on ground, that stand on pages; contrast is tested for each. */
export const textOn: readonly (readonly [Colour, Colour])[] = [
  ...(['ink', 'ink-soft', 'expected', 'arrow', 'finding', 'doubt', 'good', 'unjudged'] as const).flatMap((text) =>
    (['paper', 'surface'] as const).map((ground) => [text, ground] as const),
  ),
  ['finding', 'finding-tint'],
  ['doubt', 'doubt-tint'],
  ['good', 'good-tint'],
  ['unjudged', 'unjudged-tint'],
  ...(['finding-tint', 'doubt-tint', 'good-tint', 'unjudged-tint', 'flesh', 'flesh-far'] as const).map(
    (ground) => ['ink', ground] as const,
  ),
  ['ink-soft', 'flesh'],
  ['ink', 'flesh-close'],
  ['arrow', 'flesh-close'],
  ['ink-soft', 'used'],
  ['surface', 'finding'],
  ['surface', 'good'],
  ['surface', 'unjudged'],
  ['surface', 'ink'],
];

export const shapeOn: readonly (readonly [Colour, Colour])[] = (
  ['here', 'expected', 'arrow', 'finding', 'doubt', 'good', 'bone'] as const
).flatMap((shape) => (['flesh-close', 'surface'] as const).map((ground) => [shape, ground] as const));

export const paletteVariables = Object.entries(palette)
  .map(([name, value]) => `--${name}:${value}`)
  .join(';');
