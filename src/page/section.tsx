import type { ComponentChildren } from 'preact';

interface SectionProps {
  readonly id: string;
  readonly title: string;
  readonly children: ComponentChildren;
}

export function Section({ id, title, children }: SectionProps) {
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}
