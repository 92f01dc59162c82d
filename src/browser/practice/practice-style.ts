/** What the practice has of its own. */
export const practiceStyle = `
.left-out:empty{display:none}
.practice{margin:0 auto}
.practice h1{font-size:26px;margin:0 0 .4em}
@media (min-width:901px){.bar:has(~.practice:not(.start,.summary)){margin-bottom:0}}
.summary button+button{margin-top:10px}
.sign-off{max-width:1100px;margin:32px auto 0;background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:16px 20px}
.sign-off .reason{flex:1 0 100%}
.on-screen{max-width:1100px;margin:0 auto 16px;align-items:center}
.doubt{border-left:8px solid var(--doubt);background:var(--doubt-tint);padding:.6em 1em;border-radius:8px}
@media print{.on-screen,.sign-off{display:none}}
@media (min-width:901px){.bar:has(~.practice:not(.start,.summary)){position:absolute;right:clamp(14px,2vw,32px);top:12px}}
.practice :is(h1,h2):focus{outline:none}
.desk{display:grid;grid-template-columns:minmax(0,1fr) minmax(300px,25em);gap:20px;align-items:start}
.looked-at{margin:0;background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:12px}
.looked-at svg{max-height:max(340px,calc(100vh - 310px));margin:0 auto}
.looking{display:flex;flex-wrap:wrap;gap:8px 18px;align-items:center;font-size:17px}
.looking fieldset{display:flex;flex-wrap:wrap;gap:4px;border:0;margin:0;padding:0}
.looking button{padding:.25em .7em}
.looking button[aria-pressed=true]{background:var(--ink);color:var(--surface);border-color:var(--ink)}
button:disabled,select:disabled{opacity:.55;cursor:default}
.tap{fill:transparent;cursor:pointer}
.tap:hover{stroke:var(--expected);stroke-width:2.5}
.aid{stroke:var(--expected);stroke-width:1.2;stroke-dasharray:6 5;fill:none}
.yours .arrow{fill:var(--bone)}
.ruler path{fill:none;stroke:var(--ink);stroke-width:2}
.ruler text{font-size:17px}
.verdict,.told,.start,.summary{background:var(--surface);border:1px solid var(--line);border-radius:14px;padding:16px 20px;margin:0}
.start,.summary{max-width:900px;margin:0 auto;font-size:20px}
.verdict fieldset{border:1px solid var(--line);border-radius:10px;margin:0 0 12px;padding:8px 14px 14px}
.verdict label{display:block;margin-top:8px}
:is(.verdict,.start-with) :is(select,input:not([type=file])){display:block;width:100%;font:inherit;padding:.4em .6em;border:2px solid var(--ink-soft);border-radius:10px;background:var(--surface);color:var(--ink)}
.verdict .or{margin:.5em 0;text-align:center;color:var(--ink-soft)}
.rows{display:flex;flex-wrap:wrap;gap:8px;margin-bottom:12px}
button.large{font-size:20px;width:100%}
button.primary{background:var(--ink);color:var(--surface);border-color:var(--ink);font-weight:650}
.told .truth{font-size:21px;font-weight:650;line-height:1.3}
.told h3{font-size:18px;margin:1em 0 .2em}
.told ul{padding-left:1.2em;margin:.2em 0 1em}
.start-with{display:flex;flex-wrap:wrap;gap:14px;align-items:end;margin:1em 0}
.start-with button.large{width:auto}
.button.quiet{background:var(--surface);color:var(--ink)}
.numbers{margin-top:12px}
@media (max-width:900px){.desk{grid-template-columns:1fr}.looked-at svg{max-height:none}}
`;
