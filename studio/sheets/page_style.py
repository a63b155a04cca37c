"""The look of a page in HTML: greys alone, so that nothing stands beside the colours it shows."""

from typing import Final

STYLE: Final = """
:root { color-scheme: only light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #f4f4f4; color: #1a1a1a; overflow-wrap: anywhere;
  font: 1rem/1.5 system-ui, "Segoe UI", Roboto, "Helvetica Neue", "DejaVu Sans", sans-serif; }
main, footer { max-width: 60rem; margin: 0 auto; padding: 0 1.25rem; }
h1 { margin: 2rem 0 0; font-size: 1.75rem; line-height: 1.2; }
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
.ground, .colour { -webkit-print-color-adjust: exact; print-color-adjust: exact;
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
  .stack table, .stack tbody, .stack tr, .stack td { display: block; }
  .stack thead { position: absolute; width: 1px; height: 1px; overflow: hidden;
    clip-path: inset(50%); }
  .stack tr { padding: 0.5rem 0; border-bottom: 1px solid #999999; }
  .stack td { display: grid; grid-template-columns: minmax(6rem, 30%) 1fr; gap: 0.75rem;
    padding: 0.15rem 0; border: 0; text-align: left; }
  .stack td::before { content: attr(data-label); font-weight: 400; color: #4a4a4a; }
  .stack td:first-child { font-weight: 600; }
  .stack td:empty { display: none; }
}
@page { size: A4; margin: 16mm;
  @bottom-right { content: counter(page) " of " counter(pages); text-align: right;
    vertical-align: top; padding-top: 2mm; font: 7.5pt/1.4 system-ui, sans-serif;
    color: #4a4a4a; } }
@media print {
  html { font-size: 9.5pt; }
  body { background: #ffffff; }
  main, footer { max-width: none; padding: 0; }
  h1 { margin-top: 0; font-size: 18pt; }
  h2 { margin-top: 16pt; font-size: 12pt; }
  p, ul { max-width: none; }
  table, figcaption, .small { font-size: 8.5pt; }
  .table { overflow: visible; break-inside: avoid; }
  .table.long { break-inside: auto; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  .patch-block { break-inside: avoid; }
  .patch-block.long { break-inside: auto; }
  .one { max-width: 86mm; }
  .one .colour, .two .colour { height: 40mm; }
  .few { grid-template-columns: repeat(3, 1fr); }
  .few .colour { height: 30mm; }
  .many { grid-template-columns: repeat(4, 1fr); gap: 4mm; }
  .many .colour { height: 18mm; }
  .ground { padding: 4mm; }
  body { display: table; width: 100%; }
  main { display: table-row-group; }
  footer { display: table-footer-group; break-inside: avoid; font-size: 7.5pt; }
  footer p { margin: 4mm 0 0; padding-top: 2mm; }
}
"""
