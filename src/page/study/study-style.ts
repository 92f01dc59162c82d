/** What the page of a study has besides the report's: dot plots and plots of agreement. */
export const studyStyle = `
.study-plot text{font-size:14px;fill:var(--ink-soft)}
.study-plot .assessor{font-size:16px;font-weight:650;fill:var(--ink)}
.study-plot .grid{stroke:var(--line);stroke-width:1}
.study-plot .middle{stroke:var(--ink-soft);stroke-width:1.5}
.study-plot .band-edge{stroke:var(--line);stroke-width:1.5}
.study-plot .mean{fill:var(--expected)}
.study-plot .join{stroke:var(--bone);stroke-width:1.5}
.study-plot .dot{fill:var(--surface);stroke:var(--ink);stroke-width:1.8}
.study-plot .interval{fill:var(--used)}
.study-plot .bias{stroke:var(--expected);stroke-width:2.4}
.study-plot .limit{stroke:var(--expected);stroke-width:2;stroke-dasharray:7 5}
.charts.wide{grid-template-columns:repeat(auto-fit,minmax(min(100%,480px),1fr))}
.record{max-width:75ch;font-size:17px}
.record>div{grid-template-columns:8em 1fr}
.worst{max-width:85ch;font-size:19px}
.worst dt{font-weight:650;color:var(--ink)}
.worst>div{grid-template-columns:9em 1fr;margin-top:.6em}
.known{max-width:80ch}
@media (max-width:600px){.worst>div,.record>div{grid-template-columns:1fr}}
@media print{.charts.wide{grid-template-columns:1fr 1fr}.summary{break-after:auto}}
`.replaceAll('\n', '');
