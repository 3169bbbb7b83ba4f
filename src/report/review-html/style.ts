/** Colours on paper: every text has a contrast of 4.5 to 1 or more on what it stands on. */
const onPaper = `--paper: #ffffff; --panel: #f4f5f7; --ink: #1a1d21; --quiet: #50565f; --rule: #c4c9d1; --wire: #3b414a; --link: #1b4a78; --band: #1b4a78; --window: #dfe9f3;
  --pass: #1c6230; --pass-tint: #e4f1e7; --warn: #805000; --warn-tint: #fdf0d3; --fail: #9c1419; --fail-tint: #fbe4e3; --open: #4b515b; --open-tint: #eceef1;`;

/** The same at night. */
const onDark = `--paper: #14171c; --panel: #1d2128; --ink: #e8eaee; --quiet: #b0b7c2; --rule: #424955; --wire: #b9c0cb; --link: #93c0ec; --band: #6ea6dc; --window: #22334a;
  --pass: #8ad89a; --pass-tint: #17301d; --warn: #f3c06a; --warn-tint: #38290c; --fail: #ff9d96; --fail-tint: #471b1b; --open: #bfc5cf; --open-tint: #2b3039;`;

/** Red fails, amber warns, green passes, grey is not assessed: colour, tint and outline of everything that carries a verdict. */
const verdictRules = (['pass', 'warn', 'fail', 'open'] as const)
  .map((name) => `.${name} { --own: var(--${name}); --tint: var(--${name}-tint); }`)
  .join('\n');

/** Of the page with drawings: a data sheet, on a screen of any width and on A4 or Letter. */
export const reviewStyle = `
:root { color-scheme: light dark; ${onPaper} }
@media screen and (prefers-color-scheme: dark) { :root { ${onDark} } }
${verdictRules}
* { box-sizing: border-box; }
html { scroll-behavior: smooth; }
body { margin: 0; color: var(--ink); background: var(--paper); font: 16px/1.5 system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", Arial, sans-serif; font-variant-numeric: tabular-nums; }
main, header, footer { max-width: 68rem; margin: 0 auto; padding: 0 1.25rem; }
header { padding-top: 1.5rem; }
h1, h2, h3, h4 { line-height: 1.25; text-wrap: balance; }
h1 { margin: 0 0 0.25rem; font-size: 1.7rem; }
h2 { margin: 2.2rem 0 0.6rem; padding-top: 0.5rem; border-top: 3px solid var(--ink); font-size: 1.3rem; }
h3 { margin: 1.6rem 0 0.5rem; padding-top: 0.3rem; border-top: 1px solid var(--rule); font-size: 1.1rem; }
h4 { margin: 1.2rem 0 0.4rem; font-size: 1rem; }
p { margin: 0.4rem 0; max-width: 48rem; }
a { color: var(--link); text-underline-offset: 0.15em; }
:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
code { font-family: ui-monospace, "Liberation Mono", "DejaVu Sans Mono", monospace; font-size: 0.92em; overflow-wrap: anywhere; }
.skip { position: absolute; left: -999rem; }
.skip:focus { left: 1rem; top: 0.5rem; padding: 0.3rem 0.6rem; background: var(--paper); }
.symbols { position: absolute; }
.file, .place, .quiet { color: var(--quiet); }
.summary { display: flex; flex-wrap: wrap; gap: 0.3rem 1rem; align-items: baseline; margin: 0.8rem 0; padding: 0.6rem 0.9rem; border: 2px solid var(--own); border-left-width: 0.6rem; background: var(--tint); max-width: none; }
.summary .verdict { font-size: 1.25rem; }
.verdict { display: inline-flex; align-items: baseline; gap: 0.35em; color: var(--own); font-weight: 700; white-space: nowrap; }
.mark { width: 0.75em; height: 0.75em; color: var(--own); flex: none; }
nav ul { display: flex; flex-wrap: wrap; gap: 0.2rem 1.1rem; margin: 0.6rem 0; padding: 0; list-style: none; }
ul { margin: 0.4rem 0; padding-left: 1.3rem; }
li { margin: 0.15rem 0; max-width: 52rem; overflow-wrap: break-word; }
.cautions { border-left: 0.4rem solid var(--ink); background: var(--panel); padding: 0.5rem 0.9rem; }
.cautions ul { margin: 0; }
.open-results { padding: 0; list-style: none; display: grid; gap: 0.7rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 30rem), 1fr)); }
.open-results li { padding: 0.4rem 0.8rem; border-left: 4px solid var(--own); max-width: none; }
.open-results .basis { color: var(--quiet); font-size: 0.92em; }
.open-results p { margin: 0.1rem 0; overflow-wrap: anywhere; }
.open-results a { font-weight: 600; }
.change, .waiver { font-weight: 600; }
table { border-collapse: collapse; width: 100%; margin: 0.5rem 0 1rem; }
caption { padding: 0.3rem 0; text-align: left; color: var(--quiet); }
th, td { padding: 0.25rem 0.55rem; border-bottom: 1px solid var(--rule); text-align: left; vertical-align: top; }
thead th { border-bottom: 2px solid var(--ink); }
tbody th { font-weight: 600; }
.scroll { overflow-x: auto; }
figure { margin: 0.6rem 0; }
figcaption { color: var(--quiet); max-width: 52rem; }
figure svg { display: block; width: 100%; min-width: 42rem; height: auto; font-size: 14px; }
figure svg text { fill: var(--ink); }
.wires path, .wires rect { fill: none; stroke: var(--wire); stroke-width: 1.6; stroke-linecap: round; stroke-linejoin: round; }
.wires .solid, .wires .arrow { fill: var(--wire); }
.wires .node { fill: var(--wire); }
.wires .part path, .wires path.part, .wires .part rect { stroke: var(--own); stroke-width: 3; fill: var(--tint); }
.wires path.open-path { fill: none; }
.wires .part.fail path, .wires path.part.fail, .wires .part.fail rect { stroke-width: 4.5; }
.wires .part.open path, .wires path.part.open, .wires .part.open rect { stroke-dasharray: 5 4; }
.notes text { fill: var(--quiet); font-size: 12px; }
.box > rect { fill: var(--tint); stroke: var(--own); stroke-width: 1.5; }
.box.fail > rect { stroke-width: 4; }
.box.open > rect { stroke-dasharray: 6 4; }
figure .box svg.mark { min-width: 0; width: 12px; height: 12px; }
figure .box .name { font-weight: 700; }
figure .box .word { fill: var(--own); font-weight: 700; }
.tag circle { fill: var(--paper); stroke: var(--own); stroke-width: 2; }
.tag text { font-size: 13px; font-weight: 700; }
.slider { margin: 0.8rem 0 0.2rem; }
.slider label { display: block; font-weight: 600; }
.controls { display: flex; flex-wrap: wrap; gap: 0.5rem 1rem; align-items: center; }
.controls input { flex: 1 1 14rem; min-width: 10rem; accent-color: var(--link); height: 1.8rem; }
.controls button { font: inherit; padding: 0.2rem 0.7rem; color: var(--ink); background: var(--panel); border: 1px solid var(--quiet); border-radius: 3px; }
.now { max-width: none; min-height: 3.2em; padding: 0.3rem 0.7rem; border-left: 0.4rem solid var(--rule); }
.elsewhere .now { border-left-color: var(--warn); background: var(--warn-tint); }
.bar-table { table-layout: fixed; }
.bar-table th:first-child { width: 15rem; }
.bar-table th:last-child { width: 9.5rem; }
.bar svg { display: block; width: 100%; height: 0.85rem; }
.bar svg[hidden] { display: none; }
.tight { white-space: nowrap; }
.bar .words { font-size: 0.92em; overflow-wrap: anywhere; }
.track { fill: var(--panel); stroke: none; }
.use { fill: var(--own); transition: width 120ms; }
.bar-row.open .use { fill-opacity: 0.45; }
.limit { fill: var(--ink); }
.warn-at { fill: var(--ink); }
.chart text { fill: var(--ink); }
.chart .grid { stroke: var(--rule); stroke-width: 1; fill: none; }
.chart .zero { stroke: var(--quiet); stroke-width: 0.7; }
.chart .at-limit { stroke: var(--fail); stroke-width: 2.5; }
.chart .present { stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 2 4; }
.chart .gap { stroke: var(--ink); stroke-width: 2; stroke-dasharray: 9 4 2 4; }
.chart .window { fill: var(--window); stroke: var(--band); stroke-width: 1; }
.chart .window.less { fill-opacity: 0.55; stroke-dasharray: 4 4; }
.chart .band { fill: var(--band); fill-opacity: 0.5; stroke: var(--band); stroke-width: 0.7; }
.chart .trace { fill: none; stroke: var(--band); stroke-width: 1.5; }
.line { fill: none; stroke: var(--line-own); stroke-width: 2.4; }
.line-0 { --line-own: var(--ink); } .line-1 { --line-own: var(--link); } .line-2 { --line-own: var(--quiet); }
.line-3 { --line-own: var(--ink); } .line-4 { --line-own: var(--link); } .line-5 { --line-own: var(--quiet); }
figure .legend { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 24rem), 1fr)); gap: 0.1rem 1rem; padding: 0; list-style: none; color: var(--ink); }
figure .legend svg.sample { display: inline-block; min-width: 0; width: 48px; height: 10px; }
.part-checks { columns: 2 28rem; column-gap: 2rem; }
table.check { break-inside: avoid; margin: 0 0 1.4rem; font-size: 0.9rem; table-layout: fixed; }
table.check th { width: 5.6rem; color: var(--quiet); font-weight: 600; }
table.check td { overflow-wrap: anywhere; }
table.check caption { color: var(--ink); border-bottom: 2px solid var(--ink); }
table.check caption span:last-child { color: var(--quiet); }
table.check:target caption, li:target { background: var(--panel); }
footer { margin-top: 2.5rem; padding-top: 0.8rem; padding-bottom: 2rem; color: var(--quiet); overflow-wrap: anywhere; }
@media (max-width: 40rem) { body { font-size: 15px; } main, header, footer { padding-left: 0.8rem; padding-right: 0.8rem; } .bar-table th:first-child { width: 34%; } .bar-table th:last-child { width: 6.5rem; } .bar-table .verdict { white-space: normal; } th, td { padding: 0.2rem 0.35rem; } }
@media (prefers-reduced-motion: reduce) { html { scroll-behavior: auto; } .use { transition: none; } }
@page { margin: 14mm 12mm; }
@media print {
  body { font-size: 9.5pt; line-height: 1.35; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  main, header, footer { max-width: none; padding: 0; }
  nav, .slider, .skip { display: none; }
  a { color: inherit; text-decoration: none; }
  figure svg { min-width: 0; }
  figure, tr, .open-results li, .cautions, .summary { break-inside: avoid; }
  h2, h3, h4 { break-after: avoid; }
  .scroll { overflow: visible; }
  h2 { margin-top: 7mm; }
  .cautions { font-size: 8.5pt; padding: 1mm 3mm; }
  li, p { max-width: none; }
  .drawing + .scroll { break-inside: avoid; }
  .open-results { display: block; columns: 2; column-gap: 6mm; font-size: 8.5pt; }
  .open-results li { margin-bottom: 3mm; padding: 0 2mm; }
  th, td { padding: 0.5mm 1.5mm; }
  h3 { margin-top: 4mm; font-size: 10.5pt; }
  .bar-table { font-size: 9pt; }
  .bar-table th:first-child { width: 46mm; }
  .bar-table th:last-child { width: 28mm; }
  .bar svg { display: inline-block; width: 44%; height: 2.6mm; margin-right: 2mm; }
  .checks { columns: 3; column-gap: 5mm; font-size: 7pt; }
  .part-checks { columns: auto; }
  table.check { break-inside: auto; margin-bottom: 3mm; font-size: 7pt; }
  table.check caption { break-after: avoid; }
  table.check th { width: 13mm; }
  table.check th, table.check td { padding: 0.3mm 0.8mm; }
  .project + .project { break-before: page; }
}
`;
