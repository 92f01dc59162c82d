import { quoted } from '../schemas/show-value.ts';
import { type Draft, refuse } from './draft.ts';

/** A figure without its sign and the word that goes with each: `{size above/below}`. */
const figureWithWords = /^\{size [a-z][a-z ]*\/[a-z][a-z ]*\}$/;

/** Stand-ins in the two sentences about a value; everywhere else only the side, where there is one. */
const figures = ['{value}', '{size}', '{off}'];

/** @throws MarkerSetError at a stand-in in braces that nothing would replace */
export function checkTexts(draft: Draft): void {
  const { written } = draft;
  for (const collection of ['rules', 'stance', 'views', 'markers', 'variants', 'model/posture'] as const) {
    const entries: readonly object[] =
      collection === 'model/posture' ? (written.model?.posture ?? []) : written[collection];
    entries.forEach((entry, index) => {
      const sided = collection !== 'markers' && 'sided' in entry && entry.sided === true;
      for (const [field, text] of Object.entries(entry)) {
        if (typeof text !== 'string') continue;
        const saysFigure = field === 'saysAbove' || field === 'saysBelow';
        const known = [...(saysFigure ? figures : []), ...(sided ? ['{side}'] : [])];
        const odd = text
          .match(/\{[^{}]*\}|[{}]/g)
          ?.find((standIn) => !known.includes(standIn) && !(saysFigure && figureWithWords.test(standIn)));
        if (odd === undefined) continue;
        refuse(
          draft,
          `/${collection}/${index}/${field}`,
          `found ${quoted(odd)}, which nothing would replace; ${known.length === 0 ? 'write the text without braces' : `write one of ${known.join(' ')}, or no braces`}`,
        );
      }
    });
  }
}
