import { paletteVariables } from '../palette.ts';
import { figureStyle } from './figure-style.ts';
import { printStyle } from './print-style.ts';
import { summaryStyle } from './summary-style.ts';

const base = `
:root{${paletteVariables};color-scheme:light}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:18px/1.5 "Segoe UI",system-ui,-apple-system,Roboto,"Noto Sans","Liberation Sans",sans-serif;font-variant-numeric:tabular-nums}
main{padding:clamp(14px,2vw,32px)}
a{color:var(--expected)}
:focus-visible{outline:3px solid var(--expected);outline-offset:3px;border-radius:4px}
.skip{position:absolute;left:-999em}
.skip:focus{left:12px;top:12px;background:var(--surface);padding:.6em 1em;z-index:2}
section{max-width:1760px;margin:clamp(28px,3.2vw,52px) auto 0}
section :is(h2,h3){font-size:26px;line-height:1.2;margin:0 0 .5em}
code{font:.85em ui-monospace,"Cascadia Mono","Liberation Mono",monospace;color:var(--ink-soft);overflow-wrap:anywhere}
.small{font-size:15px;color:var(--ink-soft);max-width:75ch}
.reader-note{max-width:90ch;background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:14px 18px;margin:0;user-select:all}
li{overflow-wrap:anywhere}
.four{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,260px),1fr));gap:16px}
@media (min-width:1000px){.four{grid-template-columns:1fr 1fr 1fr 1.5fr}}
.view{margin:0;background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:12px;display:flex;flex-direction:column}
.view svg{max-height:620px;margin:auto}
.view figcaption{order:-1;min-height:2.5em;line-height:1.25;display:grid;place-items:center;font-weight:650;font-size:19px;text-align:center}
.sides{display:flex;justify-content:space-between;gap:1em;margin:8px 0 0;color:var(--ink-soft);font-size:16px;line-height:1.2}
.finding-key{margin:.9em 0 0;padding-left:1.6em;columns:26em 2;column-gap:40px;font-size:17px}
.findings{list-style:none;padding:0;margin:0;display:grid;gap:14px;grid-template-columns:repeat(auto-fill,minmax(min(100%,440px),1fr))}
.finding{background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:18px 20px;border-left:8px solid var(--finding);counter-increment:finding}
.findings{counter-reset:finding}
.finding.borderline{border-left:8px double var(--doubt)}
.finding.accepted{border-left:8px dotted var(--ink-soft)}
.finding :is(h3,h4){font-size:19px;margin:0}
.finding :is(h3,h4)::before{content:counter(finding) "  "}
.finding .says{margin:.4em 0;font-size:19px}
.finding p{margin:.3em 0}
.finding dl,.provenance dl{margin:.5em 0 0;font-size:16px;line-height:1.4}
dl>div{display:grid;grid-template-columns:6em 1fr;margin-top:.25em}
dt{color:var(--ink-soft)}
dd{margin:0;overflow-wrap:anywhere}
.status{display:inline-block;font-size:15px;font-weight:700;padding:.1em .6em;border-radius:99px;background:var(--good-tint);color:var(--good)}
.fail .status,.error .status,.status.fail{background:var(--finding-tint);color:var(--finding)}
.borderline .status,.warning .status,.status.borderline{background:var(--doubt-tint);color:var(--doubt)}
.accepted .status,.status.expected{background:var(--unjudged-tint);color:var(--unjudged)}
table{border-collapse:collapse;width:100%;background:var(--surface);border:1px solid var(--line);border-radius:14px;font-size:17px}
th,td{text-align:left;padding:.5em .8em;border-top:1px solid var(--line);vertical-align:top;font-weight:400}
thead :is(th,td){border-top:0;color:var(--ink-soft);font-size:15px}
td.figure{white-space:nowrap}
td .scale{min-width:110px}
.said{display:block;color:var(--ink-soft);font-size:16px}
summary{cursor:pointer;padding:.3em 0}
summary :is(h2,h3){display:inline;margin:0}
details>table{margin-top:.8em}
.problems{list-style:none;padding:0}
.problems li{margin-bottom:.8em}
.problems p{margin:0}
.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,420px),1fr));gap:16px}
.changes :is(h3,h4){font-size:18px}
.charts figure{margin:0;background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:12px}
.charts figcaption{font-size:15px;color:var(--ink-soft)}
.provenance dl>div{grid-template-columns:8em 1fr}
.trials{list-style:none;margin:0 auto clamp(30px,4vw,60px);padding:0;max-width:1760px;display:grid;gap:8px}
.trials a{display:flex;gap:.4em 1em;flex-wrap:wrap;background:var(--surface);border:1px solid var(--line);border-radius:12px;padding:.7em 1em;font-size:20px;color:var(--ink);text-decoration:none}
.trials b{min-width:11em}
.trials a:hover{border-color:var(--ink-soft)}
.page-title{max-width:1760px;margin:0 auto .5em;font-size:clamp(28px,3vw,44px)}
.report+.report{margin-top:80px;border-top:4px solid var(--line);padding-top:40px}
.narrow{display:none}
@media (max-width:600px){.narrow{display:inline;color:var(--ink-soft)}table,thead,tbody,tr{display:block}thead{display:none}th,td{display:block;border:0;padding:.1em .9em}tr{border-top:1px solid var(--line);padding:.6em 0}td.figure{display:inline-block}.scale{margin-top:.3em}}
`;

export const pageStyle = `${base}${summaryStyle}${figureStyle}${printStyle}`.replaceAll('\n', '');
