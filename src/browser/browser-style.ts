import { recordStyle } from '../page/practice/record-style.ts';
import { practiceStyle } from './practice/practice-style.ts';

/** What the page in the browser has around a report. */
export const browserStyle = `
.bar{display:flex;flex-wrap:wrap;gap:10px 22px;align-items:center;max-width:1760px;margin:0 auto 18px;font-size:17px}
.drop.large{flex:1 0 100%;text-align:center;background:var(--surface);border:3px dashed var(--ink-soft);border-radius:22px;padding:20px;min-height:min(74vh,760px);display:grid;align-content:center;justify-items:center}
.drop h1{font-size:clamp(32px,4.4vw,64px);margin:0;line-height:1.1;letter-spacing:-.012em}
.drop.large p{font-size:clamp(19px,1.9vw,26px);margin:.6em auto}
.drop.large .private{color:var(--ink-soft);margin-bottom:0}
main.over .drop{border-color:var(--expected);border-style:solid}
main.over:has(.drop:not(.large)){outline:6px solid var(--expected);outline-offset:-6px}
button,.button,select{font:inherit;color:var(--ink);background:var(--surface);border:2px solid var(--ink-soft);border-radius:10px;padding:.4em .9em;cursor:pointer;max-width:100%}
.button{display:inline-block;position:relative;font-weight:650;background:var(--ink);color:var(--surface);border-color:var(--ink)}
.drop.large .button{font-size:clamp(20px,2vw,28px)}
.button input{position:absolute;inset:0;opacity:0;width:100%;cursor:pointer}
.button:focus-within{outline:3px solid var(--expected);outline-offset:3px}
input[type=range]{accent-color:var(--expected)}
button:hover,select:hover{border-color:var(--ink)}
.setting{display:flex;flex-wrap:wrap;gap:8px 18px;align-items:center}
.saving{display:flex;flex-wrap:wrap;gap:10px;margin-left:auto}
.faults p{max-width:1760px;margin:0 auto 16px;padding:.7em 1em;background:var(--finding-tint);border-left:8px solid var(--finding);border-radius:8px;font-size:20px;overflow-wrap:anywhere}
.shown:focus{outline:none}
.teaching{background:var(--unjudged-tint);border-radius:16px;padding:18px 24px;margin:0 auto 18px}
.teaching h2{font-size:22px}
.teaching p{margin:0 0 .6em}
.share{display:grid;grid-template-columns:8em minmax(0,30em) 4em;gap:14px;align-items:center;margin:.4em 0}
.which{display:block;margin:.8em 0 .2em}
.wait{padding:3em;text-align:center}
@media (max-width:600px){.share{grid-template-columns:1fr 4em}.share span{grid-column:1/-1}.saving{margin-left:0}}
@media print{.bar,.teaching,.faults{display:none}}
${practiceStyle}${recordStyle}`.replaceAll('\n', '');
