/** Pictures: the patient, regions, scales, curves. */
export const figureStyle = `
svg{display:block;width:100%;height:auto}
.region .key{display:inline-block;width:1.05em;height:1.05em;vertical-align:-.15em;overflow:visible}
svg text{font-family:inherit;fill:var(--ink)}
.ground{fill:var(--paper)}
.region>svg{border-radius:14px;border:1px solid var(--line)}
.flesh path{fill:var(--flesh);stroke:var(--flesh);stroke-linejoin:round;stroke-linecap:round}
.flesh.far path{fill:var(--flesh-far);stroke:var(--flesh-far)}
.region .flesh path{fill:var(--flesh-close);stroke:var(--flesh-close)}
.region .flesh.far path{fill:var(--flesh-close-far);stroke:var(--flesh-close-far)}
.bones line{stroke:var(--bone);stroke-width:2.2;stroke-linecap:round}
.bones.far line{stroke:var(--bone-far);stroke-width:1.6}
.dot{fill:var(--bone)}
.dot.far{fill:var(--surface);stroke:var(--bone-far);stroke-width:1.4}
.dot.told{fill:var(--here)}
.pressure path{stroke:var(--expected);stroke-width:3}
.pressure text{font-size:16px;fill:var(--expected)}
.floor{stroke:var(--ink-soft);stroke-width:2}
.here{fill:var(--here)}
.expected{fill:var(--surface);fill-opacity:.55;stroke:var(--expected);stroke-width:4.5;stroke-dasharray:7 5}
.key .expected{stroke-width:3;stroke-dasharray:4.5 3.2}
.region .doubt{fill:none;stroke:var(--expected);stroke-width:2;stroke-dasharray:1.5 7;stroke-linecap:round}
.arrow{fill:var(--arrow);stroke:var(--surface);stroke-width:3;paint-order:stroke}
.extension{stroke:var(--arrow);stroke-width:1.6}
text.distance{font-size:40px;font-weight:800;fill:var(--arrow);stroke:var(--surface);stroke-width:8;stroke-linejoin:round;paint-order:stroke}
text.label{font-size:26px;font-weight:700;stroke:var(--surface);stroke-width:6;stroke-linejoin:round;paint-order:stroke}
text.edge{font-size:23px;fill:var(--ink-soft);stroke:var(--paper);stroke-width:5;paint-order:stroke;stroke-linejoin:round}
.view text.edge{stroke:none}
.inset{fill:var(--surface);stroke:var(--line);stroke-width:1.5}
.locator .bones line{stroke-width:1}
.zoom{fill:none;stroke:var(--arrow);stroke-width:2.5}
.expected-plane line{stroke:var(--expected);stroke-width:2.5;stroke-dasharray:12 8}
.found line{stroke:var(--finding);stroke-width:3;stroke-linecap:round}
.found .plane{stroke-dasharray:10 7;stroke-width:2.2}
.found.borderline line{stroke:var(--doubt)}
.found.accepted line{stroke:var(--ink-soft)}
circle.tag{fill:var(--finding)}
.borderline circle.tag{fill:var(--doubt)}
.accepted circle.tag{fill:var(--ink-soft)}
text.tag{font-size:14px;font-weight:700;fill:var(--surface)}
.scale{max-width:260px}
.scale .axis{stroke:var(--line);stroke-width:2}
.scale .allowed{fill:var(--band)}
.scale .near{fill:var(--band-edge)}
.scale .end{stroke:var(--ink-soft);stroke-width:1.6}
.scale .uncertainty{stroke:var(--ink);stroke-width:2}
.scale .value{fill:var(--good);stroke:var(--surface);stroke-width:2;paint-order:stroke}
.scale.borderline .value{fill:var(--surface);stroke:var(--doubt);stroke-width:2.5}
.scale .half{fill:var(--doubt)}
.scale.fail .value{fill:var(--finding)}
.scale.accepted .value{fill:var(--ink-soft)}
.bar-chart{max-width:240px}
.bar-chart .ground-band{fill:var(--paper)}
.bar-chart .amount{fill:var(--ink-soft)}
.bar-chart .border{stroke:var(--ink);stroke-width:1.5;stroke-dasharray:3 3}
.sway text{font-size:13px;fill:var(--ink-soft)}
.sway .grid{stroke:var(--line);stroke-width:1}
.sway .used{fill:var(--used)}
.curve{fill:none;stroke:var(--ink);stroke-width:2.2;stroke-linejoin:round}
.curve.feet{stroke:var(--expected);stroke-dasharray:5 4}
`;
