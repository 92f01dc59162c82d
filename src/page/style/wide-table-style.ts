/** Tables of figures, which on a narrow screen are moved sideways, and parts that are folded away. */
export const wideTableStyle = `
td.amount,th.amount{text-align:right}
td.amount{white-space:nowrap}
.wide-table{overflow-x:auto;margin:0}
.wide-table+ul{padding-left:1.2em}
details{margin-top:14px}
details>:is(.charts,.wide-table){margin-top:.8em}
@media (max-width:600px){.wide-table table{display:table}.wide-table thead{display:table-header-group}.wide-table tbody{display:table-row-group}.wide-table tr{display:table-row}.wide-table :is(th,td){display:table-cell;border-top:1px solid var(--line);padding:.5em .8em;min-width:5.5em}.wide-table th[scope=row]{min-width:12em}td.amount,th.amount{text-align:right}table:not(.wide-table table) td.amount{text-align:left}}
@media print{.wide-table{overflow:visible}.wide-table table{font-size:7.5pt}.wide-table .said{font-size:7pt}.wide-table :is(th,td){padding:.3em .45em}}
`.replaceAll('\n', '');
