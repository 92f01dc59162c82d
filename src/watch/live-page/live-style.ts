import { pageStyle } from '../../page/style/page-style.ts';

/** What the live page has beyond a report: to be read from two metres, calm. */
const ownStyle = `
[hidden]{display:none!important}
#live{padding-top:12px}
.bar{max-width:1760px;margin:0 auto 14px;display:flex;flex-wrap:wrap;gap:2px 28px;justify-content:space-between;align-items:baseline;border-bottom:2px solid var(--line);padding-bottom:8px}
.bar p{margin:0}
.bar .which{font-size:clamp(20px,1.8vw,28px);font-weight:700}
.bar .doing{color:var(--ink-soft);font-size:clamp(17px,1.4vw,22px)}
.bar .missing{color:var(--finding);font-weight:650}
.strip{max-width:1760px;margin:0 auto 14px;display:flex;flex-wrap:wrap;gap:6px 10px;list-style:none;padding:0;font-size:clamp(16px,1.3vw,20px)}
.strip a{display:flex;gap:.5em;align-items:center;padding:.15em .8em .15em .4em;border:1px solid var(--line);border-radius:99px;background:var(--surface);color:var(--ink);text-decoration:none}
.strip a:hover{border-color:var(--ink-soft)}
.strip [aria-current]{border:2px solid var(--ink);font-weight:650}
.strip svg{width:1.15em;height:1.15em}
.strip .mark circle,.strip .mark rect{fill:var(--good)}
.strip .adjust .plate{fill:var(--arrow)}
.strip .not-assessable rect{fill:var(--unjudged)}
.announcement{position:absolute;width:1px;height:1px;margin:-1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.connection{position:sticky;top:0;z-index:3;margin:0;padding:14px 24px;background:var(--ink);color:var(--surface);font-size:clamp(20px,2vw,30px);font-weight:650;text-align:center}
.fresh{position:fixed;right:20px;bottom:20px;z-index:3;background:var(--ink);color:var(--surface);padding:.7em 1.2em;border-radius:99px;font-size:clamp(19px,1.7vw,26px);font-weight:650;text-decoration:none;max-width:min(90vw,40em)}
.compared{max-width:1760px;margin:0 auto clamp(16px,1.8vw,28px)}
.compared h2{font-size:clamp(20px,1.8vw,28px);color:var(--ink-soft);font-weight:650;margin:0 0 .4em}
.compared ol{list-style:none;margin:0;padding:0;display:grid;gap:12px;grid-template-columns:repeat(auto-fit,minmax(min(100%,520px),1fr))}
.outcome{display:flex;gap:clamp(12px,1.2vw,20px);background:var(--surface);border:1px solid var(--line);border-left:12px solid var(--good);border-radius:14px;padding:clamp(12px,1.2vw,20px)}
.outcome>div{flex:1;min-width:0}
.outcome p{margin:0;line-height:1.25}
.outcome .sign{flex:none;width:clamp(36px,3.2vw,52px);height:clamp(36px,3.2vw,52px)}
.outcome .sign circle{fill:var(--good)}
.outcome .sign path{fill:none;stroke:var(--surface);stroke-width:3;stroke-linecap:round;stroke-linejoin:round}
.outcome.doubt{border-left:12px double var(--doubt)}
.outcome.doubt .sign circle{fill:var(--doubt)}
.outcome.finding{background:var(--surface);border-left:12px solid var(--finding)}
.outcome.finding .sign circle{fill:var(--finding)}
.outcome.unjudged{border-left:12px dotted var(--unjudged)}
.outcome.unjudged .sign circle{fill:var(--unjudged)}
.outcome .subject{font-size:clamp(18px,1.6vw,25px);color:var(--ink-soft);font-weight:600}
.outcome .happened{font-size:clamp(23px,2.2vw,36px);font-weight:700;letter-spacing:-.01em}
.outcome .check{font-size:clamp(18px,1.6vw,25px);font-weight:600}
.outcome .distance{display:block;width:min(100%,420px);margin:.35em 0}
.distance .asked{fill:var(--line)}
.distance .moved{fill:var(--expected)}
.distance path{fill:none;stroke:var(--ink);stroke-width:3}
.distance .start{stroke-width:2;stroke-dasharray:3 3}
.changed{font-size:clamp(19px,1.8vw,28px);font-weight:600;margin:.5em 0 0}
.other-body{max-width:1760px;margin:0 auto 16px;font-size:clamp(18px,1.6vw,25px);border-left:6px dotted var(--unjudged);padding-left:14px}
.stop{max-width:1760px;margin:0 auto clamp(16px,1.8vw,28px);background:var(--ink);color:var(--surface);border-radius:18px;padding:clamp(16px,1.9vw,30px)}
.stop h2{font-size:clamp(30px,3.5vw,56px);margin:0;line-height:1.1}
.stop p{font-size:clamp(22px,2.4vw,38px);margin:.3em 0 0;line-height:1.25}
.waiting{margin-top:12vh;text-align:center}
.waiting h1{font-size:clamp(34px,4.4vw,72px);margin:0}
.waiting p{font-size:clamp(20px,2vw,30px)}
.waiting .small{font-size:18px;margin:.3em auto}
.captures ol{list-style:none;margin:0;padding:0;display:grid;gap:8px}
.captures a{display:flex;flex-wrap:wrap;gap:4px 16px;align-items:baseline;background:var(--surface);border:1px solid var(--line);border-radius:12px;padding:.6em 1em;color:var(--ink);text-decoration:none;font-size:20px}
.captures a:hover{border-color:var(--ink-soft)}
.captures b{min-width:1.6em}
.captures .status{font-size:17px}
.captures .status.adjust{background:var(--finding-tint);color:var(--finding)}
.captures .status.not-assessable{background:var(--unjudged-tint);color:var(--unjudged)}
.captures .notes{color:var(--ink-soft);font-size:17px;margin-left:auto}
.captures .another{color:var(--ink-soft);font-size:17px;padding:.2em 1em}
@media print{.bar .doing,.connection,.fresh,.captures,.strip{display:none}}
`;

/** The style sheet of the live page: that of a report, and its own. */
export const liveStyle = `${pageStyle}${ownStyle.replaceAll('\n', '')}`;
