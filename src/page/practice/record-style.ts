/** What the record of a trainee has of its own; it prints on one or two sheets. */
export const recordStyle = `
.record{max-width:1100px;margin:0 auto}
.record h1{font-size:30px;line-height:1.2;margin:0 0 .3em}
.record h1:focus{outline:none}
.record section{margin-top:28px;overflow-x:auto}
.record section h2{font-size:22px}
.record td{white-space:nowrap}
@media (max-width:600px){.record td[data-of]::before{content:attr(data-of) ": ";color:var(--ink-soft)}.record :is(td:empty,td.none){display:none}.record :is(th,td){padding:.4em .45em;font-size:15px}.record td{white-space:normal}}
.record .by-hand{display:none}
@media print{.record h1{font-size:18pt}.record section{margin-top:8pt}.record section h2{font-size:12pt;margin-bottom:.3em}.record :is(p,li,.small){font-size:9pt;max-width:none;margin-block:.35em}.record :is(.said,thead th,.status){font-size:8.5pt}.record :is(th,td){padding:.2em .6em}.record .by-hand{display:block;margin:14mm 0 6mm;border-top:1px solid var(--ink);padding-top:1mm;max-width:110mm;font-size:9pt}.record tr{break-inside:avoid}.record h2{break-after:avoid}}
`.replaceAll('\n', '');
