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
td.amount,th.amount{text-align:right}
td.amount{white-space:nowrap}
.incomplete{max-width:75ch;font-size:19px;font-weight:650;padding-left:14px;border-left:4px solid var(--doubt)}
.wide-table{overflow-x:auto;margin:0}
.wide-table+ul{padding-left:1.2em}
details{margin-top:14px}
details>:is(.charts,.wide-table){margin-top:.8em}
@media (max-width:600px){.wide-table table{display:table}.wide-table thead{display:table-header-group}.wide-table tbody{display:table-row-group}.wide-table tr{display:table-row}.wide-table :is(th,td){display:table-cell;border-top:1px solid var(--line);padding:.5em .8em;min-width:5.5em}.wide-table th[scope=row]{min-width:12em}td.amount,th.amount{text-align:right}table:not(.wide-table table) td.amount{text-align:left}}
@media print{.charts.wide{grid-template-columns:1fr 1fr}.summary{break-after:auto}.wide-table{overflow:visible}.wide-table table{font-size:7.5pt}.wide-table .said{font-size:7pt}.wide-table :is(th,td){padding:.3em .45em}}
`.replaceAll('\n', '');
