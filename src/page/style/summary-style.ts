/** What is read from two metres away. */
export const summaryStyle = `
.summary{max-width:1760px;margin:0 auto}

.stamp{position:sticky;top:0;z-index:1;max-width:1760px;margin:0 auto 18px;padding:.4em .8em;background:var(--unjudged);color:var(--surface);font-size:clamp(22px,2.4vw,34px);font-weight:750;text-align:center;border-radius:10px}
.headline{display:flex;gap:clamp(14px,1.6vw,28px);align-items:flex-start}
.headline .mark{flex:none;width:clamp(46px,5.2vw,84px)}
.mark circle,.mark rect,.mark .plate{fill:var(--good)}
.adjust .mark .plate{fill:var(--arrow)}
.not-assessable .mark rect{fill:var(--unjudged)}
.mark .sign{fill:none;stroke:var(--surface);stroke-width:5.5;stroke-linecap:round;stroke-linejoin:round}
.headline :is(h1,h2){margin:0;font-size:clamp(30px,3.5vw,66px);line-height:1.12;letter-spacing:-.012em;text-wrap:balance}
.headline p{margin:.35em 0 0;font-size:clamp(19px,1.95vw,36px);line-height:1.3}
.headline .coverage{display:flex;align-items:center;gap:.7em;flex-wrap:wrap}
.coverage svg{width:clamp(110px,13vw,200px);flex:none}
.coverage .whole{fill:var(--surface);stroke:var(--ink-soft);stroke-width:1}
.coverage .part{fill:var(--good)}
.restless,.headline .caution{color:var(--ink-soft)}
.identity{margin:.9em 0 0;color:var(--ink-soft);font-size:16px;overflow-wrap:anywhere}
.steps,.first-problems{list-style:none;margin:clamp(12px,1.4vw,22px) 0 0;padding:0;display:grid;gap:clamp(12px,1.4vw,22px)}
.step,.first-problems li{background:var(--surface);border-radius:18px;border:1px solid var(--line);padding:clamp(16px,1.9vw,30px)}
.first-problems li{font-size:clamp(20px,2.2vw,32px);line-height:1.25;border-left:12px solid var(--arrow)}
.first-problems p{margin:0}
.first-problems .remedy{margin-top:.4em;font-weight:600}
.step{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,47%);column-gap:clamp(18px,2.4vw,40px);row-gap:14px;grid-template-rows:auto 1fr}
.step.plain{grid-template-columns:1fr}
.step .region{grid-column:2;grid-row:1/span 2;margin:0}
.step .action{margin:0;font-size:clamp(24px,2.5vw,46px);font-weight:600;color:var(--ink-soft);display:flex;align-items:center;gap:.5em}
.number{display:inline-grid;place-items:center;width:1.7em;height:1.7em;border-radius:50%;background:var(--ink);color:var(--surface);font-weight:700}
.order{margin:.3em 0 0;font-weight:400;line-height:1.14}
.order>span{display:block}
.order .who{font-size:clamp(29px,3.2vw,60px);font-weight:750;letter-spacing:-.012em}
.order .way{font-size:clamp(28px,2.9vw,54px);margin-top:.3em;color:var(--arrow);font-weight:600}
.order .way b{font-size:1.5em;font-weight:800;white-space:nowrap;letter-spacing:-.02em}
.order .expects{font-size:clamp(20px,2.2vw,40px);margin-top:.4em}
.instruction{margin:.4em 0 0;font-size:clamp(28px,2.9vw,54px);line-height:1.2;font-weight:650}
.first-look,.after{font-size:clamp(20px,2.2vw,40px);line-height:1.25;margin:.7em 0 0;font-weight:600}
.step-notes{grid-column:1;margin:0;font-size:clamp(17px,1.2vw,21px);line-height:1.42;align-self:end}
.step-notes>div{display:grid;grid-template-columns:6.4em 1fr;margin-top:.35em}
.step-notes dt{color:var(--ink-soft);font-weight:600}
.step-notes dd{margin:0}
.step.plain .step-notes{max-width:70em}
.more{font-size:clamp(20px,2vw,28px);font-weight:600}
.cautions{margin:clamp(12px,1.4vw,22px) 0 0;font-size:18px;line-height:1.4;display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,340px),1fr));gap:0 40px}
.cautions p{margin:.3em 0;padding-left:14px;border-left:4px solid var(--ink-soft)}
.region figcaption{display:flex;flex-wrap:wrap;gap:4px 24px;align-items:center;margin-top:8px;font-size:clamp(16px,1.45vw,21px)}
@media (max-width:820px){.step{grid-template-columns:1fr}.step .region{grid-column:1;grid-row:auto}}
`;
