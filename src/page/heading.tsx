import type { ComponentChildren } from 'preact';

/** Depth of a heading: a report alone on its page starts at 1, one of several at 2. */
export type Level = 1 | 2 | 3 | 4;

interface HeadingProps {
  readonly level: Level;
  readonly id?: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

export function Heading({ level, children, ...rest }: HeadingProps) {
  const Tag = `h${level}` as const;
  return <Tag {...rest}>{children}</Tag>;
}

export function below(level: Level): Level {
  return Math.min(4, level + 1) as Level;
}
