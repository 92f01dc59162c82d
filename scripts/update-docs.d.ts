export function pagesWithOutput(): string[];
export function withCurrentOutput(page: string): string;
