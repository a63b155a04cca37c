"""What the look of a swatch book adds to that of every page: greys alone here too."""

from typing import Final

BOOK_STYLE: Final = """
[hidden] { display: none !important; }
#book.away { content-visibility: hidden; }
@supports not (content-visibility: hidden) { #book.away { display: none; } }
::selection { background: #bebebe; color: #1a1a1a; }
.book header, .book main, .book footer { max-width: 84rem; }
.book h2 { margin: 2.5rem 0 0.75rem; padding-bottom: 0.3rem; border-bottom: 1.5px solid #777777; }
.swatches { display: grid; gap: 1.75rem 1.25rem; align-items: start;
  grid-template-columns: repeat(auto-fill, minmax(min(46%, 11.5rem), 1fr)); }
.swatches h2 { grid-column: 1 / -1; margin: 1rem 0 0; }
.swatches figure { content-visibility: auto; contain-intrinsic-size: auto 21rem;
  scroll-margin-top: 1rem; }
.swatches .ground { display: flex; padding: 0.9rem; }
.swatches .colour { flex: 1; height: 9.5rem; }
.swatches figcaption span { display: block; }
.swatches .apart { white-space: nowrap; }
.swatches .name { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 0.5rem;
  font-size: 1.0625rem; font-weight: 700; line-height: 1.5;
  font-variant-numeric: tabular-nums; }
.swatches .mix { font-weight: 600; }
.swatches .numbers { margin-top: 0.15rem; font-size: 0.75rem; color: #4a4a4a;
  font-variant-numeric: tabular-nums; }
.swatches a { color: #1a1a1a; text-decoration: none; }
.swatches a:hover { text-decoration: underline; }
.swatches figure:target { outline: 3px solid #1a1a1a; outline-offset: 5px; }
.book :focus-visible { outline: 3px solid #1a1a1a; outline-offset: 0; }
#search { display: grid; gap: 0.9rem 1.5rem; margin: 1.25rem 0 0; padding: 1rem 0;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); align-items: start;
  border: solid #999999; border-width: 1px 0; accent-color: #4a4a4a; }
#search label { display: block; font-weight: 600; }
#search p { margin: 0.2rem 0 0; }
#search input, #search select, .book button { min-height: 2.9rem; font: inherit; color: #1a1a1a;
  background: #ffffff; border: 1.5px solid #777777; border-radius: 0; }
#search [type=text], #search [type=search], #search select { width: 100%; padding: 0.3rem 0.6rem; }
#search [aria-invalid=true] { border: 3px solid #1a1a1a; }
#search .pair { display: flex; gap: 0.5rem; }
#search [type=color] { flex: none; width: 4.5rem; padding: 0.4rem; background: #777777; }
#search [type=color]::-webkit-color-swatch-wrapper { padding: 0; }
#search [type=color]::-webkit-color-swatch { border: 0; border-radius: 0; }
#search [type=checkbox] { min-height: 0; width: 1.4rem; height: 1.4rem; margin: 0 0.5rem 0 0;
  flex: none; }
#search .last { display: flex; gap: 0.75rem; align-items: end; }
#search .last > :first-child, #search #all { flex: 1; }
#search #all { display: flex; align-items: center; min-height: 4.4rem; font-weight: 400;
  line-height: 1.3; }
.book button { padding: 0.3rem 1.2rem; background: #e0e0e0; }
#more { display: block; margin: 1.75rem auto 0; min-width: 14rem; }
#said { max-width: none; margin: 1rem 0 0; font-weight: 600; }
#said:empty { margin: 0; }
#answer { margin-top: 1.25rem; }
@media screen and (max-width: 52rem) {
  .swatches { gap: 1.5rem 0.75rem; }
  .swatches .ground { padding: 0.55rem; }
  .swatches .colour { height: 9.5rem; }
}
@media print {
  #search, #more { display: none; }
  .book h2 { margin: 4mm 0 2.5mm; padding-bottom: 0.8mm; font-size: 12pt; break-after: avoid; }
  .book h1 { font-size: 20pt; }
  .swatches { gap: 3.5mm 4mm; grid-template-columns: repeat(4, 1fr); }
  .swatches figure { content-visibility: visible; break-inside: avoid; }
  .swatches .ground { padding: 2.5mm; }
  .swatches .colour { height: 21mm; }
  .swatches figcaption { margin-top: 1mm; font-size: 7.5pt; line-height: 1.3; }
  .swatches .name { font-size: 9pt; line-height: 1.35; }
  .swatches .numbers { font-size: 6.5pt; }
  .swatches figure:target { outline: 0; }
}
"""
