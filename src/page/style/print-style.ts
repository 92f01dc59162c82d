/**
 * On paper: A4, the summary on its first page, everything that is folded away on screen unfolded. With three steps what was
 * found stands below only, or they would not fit on that page.
 */
export const printStyle = `
@page{size:A4;margin:12mm}
@media print{
body{background:var(--surface);font-size:10.5pt;print-color-adjust:exact;-webkit-print-color-adjust:exact}
main{padding:0}
.skip{display:none}
.stamp{position:fixed;top:0;left:0;right:0;font-size:16pt;print-color-adjust:exact}
.summary{break-after:page}
.headline .mark{width:40px}
.headline :is(h1,h2){font-size:22pt}
.headline p{font-size:13pt}
.identity{font-size:9.5pt;margin-top:.5em}
.steps{gap:8px;margin-top:10px}
.step{padding:10px 14px;grid-template-columns:minmax(0,1fr) 42%;break-inside:avoid;column-gap:16px;row-gap:6px}
.step .region{grid-column:2;grid-row:1/span 2}
.step .action{font-size:12pt}
.order .who{font-size:16pt}
.order .way{font-size:13pt}
.order .expects,.first-look,.after{font-size:11pt}
.instruction{font-size:14pt}
.step-notes{font-size:8.5pt;line-height:1.3}
.steps:has(>:nth-child(3)) .step{grid-template-columns:minmax(0,1fr) 27%;padding:5px 12px;row-gap:3px}
.steps:has(>:nth-child(3)) .step-notes{font-size:7.2pt;line-height:1.18}
.steps:has(>:nth-child(3)) .order .expects,.steps:has(>:nth-child(3)) .first-look,.steps:has(>:nth-child(3)) .after{font-size:9.5pt;margin-top:.2em}
.steps:has(>:nth-child(3)) .order .way{font-size:11pt;margin-top:.15em}
.steps:has(>:nth-child(3)) .step-notes .found{display:none}
.region figcaption{font-size:9pt;gap:2px 12px}
.cautions{font-size:9.5pt;margin-top:8px;grid-template-columns:1fr 1fr}
.first-problems li{font-size:13pt;padding:10px 14px}
section{margin-top:18pt}
section :is(h2,h3){font-size:14pt}
.four{grid-template-columns:1fr 1fr}
.view{break-inside:avoid}
.view svg{max-height:88mm}
.findings{grid-template-columns:1fr}
.finding,.charts figure,tr{break-inside:avoid}
.charts{grid-template-columns:1fr 1fr}
table{font-size:9pt}
details::details-content{content-visibility:visible;block-size:auto}
.report+.report{break-before:page;border:0;padding:0;margin:0}
}
`;
