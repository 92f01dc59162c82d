import { paletteVariables } from '../palette.ts';

/** For paper first: A4 and Letter, black on white, boxes and lines to write on. */
export const worksheetStyle = `
:root{${paletteVariables}}
@page{margin:13mm 12mm}
*{box-sizing:border-box}
body{margin:0 auto;padding:16px;max-width:190mm;background:#fff;color:var(--ink);font:10.5pt/1.35 system-ui,sans-serif}
h1{font-size:19pt;line-height:1.15;margin:0 0 2mm}
h2{font-size:13pt;margin:7mm 0 2mm;border-bottom:1.5pt solid var(--ink);padding-bottom:1mm;break-after:avoid}
p{margin:1mm 0}
.fields{display:grid;grid-template-columns:repeat(3,1fr);gap:3mm 5mm;margin:3mm 0}
.field{display:flex;gap:2mm;align-items:end}
.line{flex:1;border-bottom:.8pt solid var(--ink);min-height:6mm;padding:0 1mm;font-weight:600}
ul.boxes{list-style:none;margin:0;padding:0;columns:2;column-gap:6mm}
ul.boxes li{break-inside:avoid;padding:.8mm 0 .8mm 6.5mm;text-indent:-6.5mm}
.box{display:inline-block;width:4mm;height:4mm;border:1pt solid var(--ink);margin-right:2.5mm;vertical-align:-.6mm;text-indent:0}
table{border-collapse:collapse;width:100%}
th,td{border:.6pt solid #777;padding:1.2mm 1.6mm;text-align:left;vertical-align:top}
thead th{background:#eee;font-size:9pt}
tr{break-inside:avoid}
thead{display:table-header-group}
.tick{width:11mm;text-align:center}
.write{width:19mm}
.small{font-size:9pt}
.label{font-weight:700}
.stop{border:2pt solid var(--ink);padding:3mm 4mm;margin-top:6mm;break-inside:avoid;font-size:11.5pt}
@media print{body{padding:0;max-width:none}}
`;
