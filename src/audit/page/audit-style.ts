/** What the audit's page has besides the report's: charts over time. */
export const auditStyle = `
.audit-chart text{font-size:13px;fill:var(--ink-soft)}
.audit-chart .allowed{fill:var(--used)}
.audit-chart .centre{stroke:var(--ink-soft);stroke-width:1.5}
.audit-chart .control{stroke:var(--ink-soft);stroke-width:1.5;stroke-dasharray:7 5}
.audit-chart .change{stroke:var(--doubt);stroke-width:2;stroke-dasharray:2 4}
.audit-chart .point{fill:var(--bone)}
.audit-chart .outside{fill:var(--surface);stroke:var(--finding);stroke-width:2.5}
.audit-chart .average{fill:none;stroke:var(--ink);stroke-width:2.4;stroke-linejoin:round}
.audit-chart .average-out{fill:none;stroke:var(--finding);stroke-width:4;stroke-linejoin:round;stroke-linecap:round}
.audit-chart .average-limit{fill:none;stroke:var(--expected);stroke-width:1.4;stroke-dasharray:1.5 4;stroke-linecap:round}
.charts.wide{grid-template-columns:repeat(auto-fit,minmax(min(100%,540px),1fr))}
.learning{max-width:75ch;font-size:19px;padding-left:14px;border-left:4px solid var(--ink-soft)}
.findings{counter-reset:finding}
.incomplete{max-width:75ch;font-size:19px;font-weight:650;padding-left:14px;border-left:4px solid var(--doubt)}
@media print{.charts.wide{grid-template-columns:1fr 1fr}.summary{break-after:auto}}
`.replaceAll('\n', '');
