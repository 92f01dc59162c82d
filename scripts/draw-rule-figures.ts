// Draws docs/rules/<kind>.svg for every kind of rule, from the example on its page: `npx tsx scripts/draw-rule-figures.ts`.
import { writeFileSync } from 'node:fs';
import { ruleKinds } from '../src/core/rule-kinds/all-rule-kinds.ts';
import { drawRuleFigure } from './draw-rule-figure.ts';
import { readRulePage, rulePageUrl } from './read-rule-page.ts';

for (const kind of Object.keys(ruleKinds)) {
  writeFileSync(rulePageUrl(kind, 'svg'), drawRuleFigure(readRulePage(kind)));
}
