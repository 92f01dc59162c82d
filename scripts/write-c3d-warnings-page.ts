// Writes docs/c3d-warnings.md from the meanings that stand beside the reader: `npx tsx scripts/write-c3d-warnings-page.ts`.
import { writeFileSync } from 'node:fs';
import { c3dWarningsPage, c3dWarningsPageUrl } from './c3d-warnings-page.ts';

writeFileSync(c3dWarningsPageUrl, c3dWarningsPage());
