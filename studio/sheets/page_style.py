"""The look of a page in HTML: greys alone, so that nothing stands beside the colours it shows."""

from typing import Final

_STACKED: Final = """  .stack table, .stack tbody, .stack tr, .stack td { display: block; }
  .stack thead { position: absolute; width: 1px; height: 1px; overflow: hidden;
    clip-path: inset(50%); }
  .stack tr { padding: 0.5rem 0; border-bottom: 1px solid #999999; }
  .stack td { display: grid; grid-template-columns: minmax(6rem, 30%) 1fr; gap: 0.75rem;
    padding: 0.15rem 0; border: 0; text-align: left; }
  .stack td::before { content: attr(data-label); font-weight: 400; color: #4a4a4a; }
  .stack td:first-child { font-weight: 600; }
  .stack td:empty { display: none; }
  .stack .goes-on { border-bottom: 0; padding-bottom: 0; }
  .stack .joined { padding-top: 0.4rem; }
  .stack .goes-on td:not([rowspan]) { padding-bottom: 0.15rem; }
"""
"""Each row of a table below the last, a cell a line."""

STYLE: Final = (
    """
:root { color-scheme: only light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #f4f4f4; color: #1a1a1a; overflow-wrap: anywhere;
  font: 1rem/1.5 system-ui, "Segoe UI", Roboto, "Helvetica Neue", "DejaVu Sans", sans-serif; }
header, main, footer { max-width: 60rem; margin: 0 auto; padding: 0 1.25rem; }
.wide header, .wide main, .wide footer { max-width: 92rem; }
.notice { max-width: none; margin: 0; padding: 0.9rem 0 0.6rem; font-weight: 600;
  border-bottom: 1.5px solid #777777; }
h1 { margin: 1.5rem 0 0; font-size: 1.75rem; line-height: 1.2; }
h2 { margin: 2.25rem 0 0.5rem; font-size: 1.15rem; line-height: 1.3; break-after: avoid; }
p { margin: 0.6rem 0; max-width: 46rem; orphans: 3; widows: 3; }
.lead { margin-top: 0.35rem; color: #555555; }
.small { font-size: 0.875rem; color: #4a4a4a; }
.strong { font-weight: 600; }
ul { margin: 0.6rem 0; padding-left: 1.2rem; max-width: 46rem; }
li { margin: 0.25rem 0; break-inside: avoid; }
.patches { display: grid; gap: 1.25rem; margin: 1rem 0 0.5rem;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, var(--least)), 1fr)); }
.one { --least: 100%; max-width: 30rem; }
.two { --least: 20rem; }
.few { --least: 13rem; }
.many { --least: 9rem; gap: 1rem; }
figure { margin: 0; break-inside: avoid; }
figcaption { margin-top: 0.4rem; font-size: 0.875rem; line-height: 1.4; }
.ground { padding: 1.1rem; background: #777777; }
.colour { height: 11rem; background: var(--srgb); }
.few .colour { height: 8rem; }
.many .colour { height: 5rem; }
.illustration { margin: 1rem 0; }
.illustration img { display: block; width: 100%; height: auto; max-height: 90vh;
  object-fit: contain; object-position: center; }
.chart .sideways { overflow-x: auto; }
.chart img { max-height: none; }
.steps { list-style: none; margin: 1rem 0; padding: 0; display: grid; gap: 1.75rem 1.5rem;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 24rem), 1fr)); }
.step { margin: 0; break-inside: avoid; }
.step p { margin: 0.25rem 0; }
h3 { margin: 0; font-size: 1.05rem; line-height: 1.3; }
.held { display: grid; grid-template-columns: 1fr 1fr; column-gap: 0.75rem; margin: 0.5rem 0; }
.held .ground { grid-column: 1 / -1; display: flex; padding: 0.8rem; }
.held .ground > * { flex: 1; height: 7.5rem; }
.held .empty { outline: 1px solid #bebebe; outline-offset: -1px; background:
  linear-gradient(to top right, #777777 calc(50% - 1px), #bebebe calc(50% - 1px),
    #bebebe calc(50% + 1px), #777777 calc(50% + 1px)); }
.held p { font-size: 0.875rem; line-height: 1.4; }
.line { display: flex; gap: 0.5em; }
.chips { display: grid; gap: 0.3rem 1rem; max-width: none; padding: 0; list-style: none;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 26rem), 1fr)); font-size: 0.875rem; }
.chip.colour { height: 1.1em; outline: 1px solid #bebebe; outline-offset: -1px; }
.chip.crossed { outline: 1px dashed #777777; outline-offset: -1px;
  background-blend-mode: multiply; background:
  linear-gradient(to top right, #ffffff calc(50% - 1px), #777777 calc(50% - 1px),
    #777777 calc(50% + 1px), #ffffff calc(50% + 1px)),
  linear-gradient(to bottom right, #ffffff calc(50% - 1px), #777777 calc(50% - 1px),
    #777777 calc(50% + 1px), #ffffff calc(50% + 1px)); }
.chip { flex: none; width: 2em; height: 1.1em; margin: 0.15em 0; }
.ground, .colour, .empty, .crossed { -webkit-print-color-adjust: exact; print-color-adjust: exact;
  forced-color-adjust: none; }
@supports (color: lab(50% 0 0)) { .colour { background: var(--lab); } }
.colour.outside { background: var(--srgb); }
@media (color-gamut: p3) {
  @supports (color: lab(50% 0 0)) { .colour.outside { background: var(--lab); } }
}
.table { overflow-x: auto; margin: 0.75rem 0; }
table { width: 100%; border-collapse: collapse; table-layout: fixed; font-size: 0.875rem;
  line-height: 1.4; font-variant-numeric: tabular-nums; }
th, td { padding: 0.4rem 0.75rem 0.4rem 0; text-align: left; vertical-align: top; }
th { font-weight: 600; color: #4a4a4a; border-bottom: 1.5px solid #777777;
  vertical-align: bottom; }
td { border-bottom: 1px solid #cccccc; hyphens: auto; }
.goes-on td:not([rowspan]) { border-bottom: 0; padding-bottom: 0; }
.wide table { font-size: 0.8125rem; }
.wide th, .wide td { padding-right: 0.5rem; }
.run + .run { border-top: 1.5px solid #777777; margin-top: 3rem; }
.number { text-align: right; padding-right: 1.25rem; }
th:last-child, td:last-child { padding-right: 0; }
footer { margin-top: 2.5rem; margin-bottom: 2rem; font-size: 0.8125rem; color: #4a4a4a; }
footer p { border-top: 1px solid #999999; padding-top: 0.6rem; max-width: none; }
@media screen and (max-width: 52rem) {
  .two, .few { --least: 100%; }
  .many { --least: 40%; }
  .colour { height: 9rem; }
  h1 { margin-top: 1.25rem; font-size: 1.45rem; }
  .pair col:first-child { width: 36% !important; }
  .slim table { table-layout: auto; overflow-wrap: normal; }
  .slim th, .slim td { padding-right: 0.4rem; }
  .slim col { width: auto !important; }
"""
    + _STACKED
    + """}
@media screen and (min-width: 52.01rem) and (max-width: 76rem) {
"""
    + _STACKED.replace(".stack", ".wide .stack")
    + """  .wide .stack tr { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2rem; }
  .wide .stack tr:not(.joined) td:first-child { grid-column: 1 / -1;
    grid-template-columns: minmax(6rem, 14.2%) 1fr; }
}
@page { size: A4; margin: 13mm 13mm 8mm;
  @bottom-right { content: counter(page) " of " counter(pages); text-align: right;
    vertical-align: top; font: 7.5pt/1.4 system-ui, sans-serif; color: #4a4a4a; } }
@page wide { size: A4 landscape; margin: 8mm 8mm 7mm; }
@media print {
  html { font-size: 9.5pt; }
  body { background: #ffffff; display: table; width: 100%; --scale: 1; }
  .wide { page: wide; }
  header { display: table-header-group; break-inside: avoid; }
  main { display: table-row-group; }
  footer { display: table-footer-group; break-inside: avoid; font-size: 7.5pt; }
  header, main, footer, .wide header, .wide main, .wide footer { max-width: none; padding: 0; }
  .notice { padding: 0 0 1.5mm; margin: 0 0 3.5mm; font-size: 9pt; line-height: 1.4;
    border-bottom-width: 0.35mm; }
  .run { font-size: calc(9.5pt * var(--scale)); line-height: calc(0.6 + 0.8 * var(--scale)); }
  .run + .run { break-before: page; border: 0; margin: 0; }
  .run h2, .run h1, .run table, .run figcaption { line-height: inherit; }
  h1 { margin-top: 0; font-size: 1.895em; }
  h2 { margin-top: 1.5em; font-size: 1.263em; }
  .run > :first-child, .run > section:first-child > h2 { margin-top: 0; }
  .fits h2 { margin-top: 0.85em; margin-bottom: 0; font-size: 1.105em; }
  .fits p, .fits ul { margin: 0.55em 0 0; }
  .fits li { margin: 0; }
  .fits .table { margin: 0.9em 0 0; }
  p, ul { max-width: none; }
  .run table, .run figcaption, .run .small { font-size: 0.895em; }
  .run .line { gap: calc(1.6mm * var(--scale)); }
  .chip { width: calc(6mm * var(--scale)); margin: 0.08em 0; }
  .fits h1 { font-size: 1.526em; }
  .fits th, .fits td { padding-top: calc(0.3mm * var(--scale));
    padding-bottom: calc(0.3mm * var(--scale)); }
  .fits .lead { margin-top: 0.2em; }
  .fits .goes-on td:not([rowspan]) { padding-bottom: 0; }
  .run .chips { display: grid; gap: 0.2mm 4mm; grid-template-columns: repeat(2, 1fr);
    font-size: 0.895em; margin-top: 0.4em; }
  .wide .chips { gap: 0.2mm 2.2mm; grid-template-columns: repeat(3, 1fr); }
  th, td { padding-right: 4mm; }
  .wide th, .wide td { padding-right: 2.2mm; }
  .table { overflow: visible; break-inside: avoid; }
  .table.long { break-inside: auto; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  .goes-on { break-after: avoid; }
  .patch-block { break-inside: avoid; }
  .patch-block.long { break-inside: auto; }
  .illustration { break-inside: avoid; margin: 0.8em 0; }
  .illustration img { max-height: 108mm; }
  .chart .sideways { overflow: visible; }
  .chart img { min-width: 0 !important; max-height: 150mm; }
  .steps { grid-template-columns: 1fr 1fr; gap: 5mm; margin: 0.8em 0; }
  .held .ground { padding: 2mm; }
  .held .ground > * { height: 17mm; }
  .held p { font-size: 0.895em; }
  h3 { font-size: 1.1em; }
  .one { max-width: none; }
  .one .ground { width: 90mm; }
  .one .colour, .two .colour { height: 40mm; }
  .few { grid-template-columns: repeat(3, 1fr); }
  .few .colour { height: 30mm; }
  .many { grid-template-columns: repeat(4, 1fr); gap: 4mm; }
  .many .colour { height: 18mm; }
  .ground { padding: calc(4mm * var(--scale)); }
  .fits .one .colour { height: calc(24mm * var(--scale)); }
  .fits .ground { padding: calc(2.5mm * var(--scale)); }
  .fits .patches { margin: 0.9em 0 0; }
  footer p { margin: 1mm 0 0; padding-top: 1mm; }
}
"""
)
