/** The file's own name without its folders, whichever way the slashes lean: folders often hold people's names. */
export function ownName(path: string): string {
  return path.split(/[/\\]/).findLast((part) => part !== '') ?? path;
}
