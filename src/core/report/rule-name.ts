/** Title of a rule or a measure of the stance, with its side where the title does not say it. */
export function ruleName({ title, side }: { readonly title: string; readonly side: string }): string {
  const sided = side === 'right' || side === 'left';
  return sided && !title.toLowerCase().includes(side) ? `${title}, ${side}` : title;
}
