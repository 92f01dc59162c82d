/** Links of a page within the project: not those to other hosts, and none in code. */
export function linksOf(markdown: string): { target: string; anchor: string }[] {
  const text = markdown.replaceAll(/^```[\s\S]*?^```/gm, '').replaceAll(/`[^`\n]*`/g, '');
  return [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map((match) => match[1]!)
    .filter((link) => !/^[a-z]+:/.test(link))
    .map((link) => {
      const [target = '', anchor = ''] = link.split('#');
      return { target, anchor };
    });
}

/** The anchors of a page's headings, as code hosts make them. */
export function slugsOf(markdown: string): string[] {
  return [...markdown.matchAll(/^#{1,6} (.*)$/gm)].map((match) =>
    match[1]!
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N} _-]/gu, '')
      .replaceAll(' ', '-'),
  );
}
