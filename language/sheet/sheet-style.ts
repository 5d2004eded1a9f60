/**
 * How a sheet looks: black on white, never by colour alone, steps at 13 pt for arm's length, tables that repeat their head, rows that
 * never break over a page, fixed marks on every page.
 *
 * What print CSS can and cannot: page n of m stands in the page margin where the browser has margin boxes (Chromium from 131); others
 * leave their own page numbers in header or footer, so the sheet also asks for the number of pages to be written in. The repeated
 * head (thead) and foot (tfoot) of the outer table work in all of them.
 */
export const sheetStyle = `
@page { margin: 11mm 12mm 15mm; @bottom-right { content: "page " counter(page) " of " counter(pages); font: bold 10.5pt "Liberation Sans", Arial, Helvetica, "DejaVu Sans Condensed", sans-serif; white-space: nowrap; } }
* { box-sizing: border-box; }
html { color: #000; background: #fff; font: 11.5pt/1.3 "Liberation Sans", Arial, Helvetica, "DejaVu Sans Condensed", sans-serif; }
body { margin: 0 auto; max-width: 190mm; padding: 4mm; }
h1 { font-size: 18pt; line-height: 1.2; margin: 0 0 2mm; }
h2 { font-size: 14pt; margin: 5mm 0 2mm; border-bottom: 1.5pt solid #000; break-after: avoid; }
h3 { font-size: 11.5pt; margin: 3mm 0 1mm; break-after: avoid; }
ul { margin-top: 0; }
table { border-collapse: collapse; width: 100%; }
table.data th, table.data td { border: 0.75pt solid #000; padding: 0.9mm 1.5mm; vertical-align: top; text-align: left; }
table.data thead th { border-bottom: 1.5pt solid #000; font-size: 10.5pt; }
table.data thead { display: table-header-group; }
table.data tr { break-inside: avoid; }
table.page, table.page > thead > tr > td, table.page > tbody > tr > td, table.page > tfoot > tr > td { border: 0; padding: 0; }
table.page > tbody > tr > td { padding: 0 0.75pt; }
table.page > thead { display: table-header-group; }
table.page > tfoot { display: table-footer-group; }
.running { font-size: 10pt; border-bottom: 0.75pt solid #000; margin-bottom: 3mm; padding-bottom: 1mm; display: flex; gap: 4mm; justify-content: space-between; }
.running strong { white-space: nowrap; }
.running.foot { border-bottom: 0; border-top: 0.75pt solid #000; margin: 3mm 0 0; padding: 1mm 0 0; }
.num { font-weight: 700; font-variant-numeric: tabular-nums; white-space: nowrap; }
.unit { white-space: nowrap; overflow-wrap: normal; }
.num.wraps { white-space: normal; }
dl { display: grid; grid-template-columns: fit-content(40mm) 1fr; gap: 0.8mm 4mm; margin: 0; }
dt { font-weight: 400; }
dd { margin: 0; font-weight: 700; font-variant-numeric: tabular-nums; overflow-wrap: break-word; }
.long { overflow-wrap: anywhere; margin: 2mm 0 0; }
.pair { display: grid; grid-template-columns: 11fr 9fr; gap: 6mm; align-items: start; }
.work { list-style: none; margin: 0; padding: 0; font-variant-numeric: tabular-nums; }
.figures { table-layout: fixed; }
.figures th:first-child { width: 50mm; }
.figures th:nth-child(2) { width: 38mm; }
.figures th:nth-child(4) { width: 20mm; }
.misses th:first-child { width: 42mm; }
.misses th:nth-child(2) { width: 27mm; }
.name { font-weight: 700; }
.small { font-size: 10.5pt; }
.steps td.step { font-size: 13pt; line-height: 1.3; }
.steps .do { display: flex; justify-content: space-between; gap: 4mm; }
.steps .figure { font-size: 16pt; line-height: 1.1; }
.steps .no { width: 10mm; font-size: 13pt; text-align: right; }
.steps .sign { width: 22mm; font-size: 10pt; }
.steps .sign .write { display: inline-block; width: 11mm; min-height: 0; }
.steps .sign.runs { width: 33mm; }
.steps .sign .run { display: block; white-space: nowrap; min-height: 6mm; }
.steps .cautions { font-size: 11pt; list-style: none; margin: 0.6mm 0 0; padding: 0; }
.steps .caution { display: inline; margin-right: 2mm; }
.steps .things { font-size: 10.5pt; margin: 0.6mm 0 0; }
tr.stop td, tr.stop th { border-top: 2.5pt solid #000; border-bottom: 2.5pt solid #000; font-weight: 700; }
tr.stop .caution { font-weight: 400; }
.write { display: block; border-bottom: 0.75pt solid #000; min-height: 6mm; }
.inline { display: inline-block; border-bottom: 0.75pt solid #000; min-width: 32mm; }
.banner { border: 3pt solid #000; padding: 2mm 3mm; margin: 0 0 4mm; }
.banner strong { font-size: 20pt; letter-spacing: 1pt; }
.banner ul { margin: 1mm 0 0; padding-left: 6mm; }
.mark { position: fixed; left: 0; right: 0; top: 42%; text-align: center; font: 700 64pt/1 sans-serif; transform: rotate(-32deg); color: transparent; -webkit-text-stroke: 1.5pt #777; letter-spacing: 3pt; pointer-events: none; z-index: 9; }
.labels { display: block; }
.label { border: 1.5pt solid #000; width: 118mm; padding: 3mm; margin: 0 0 5mm; break-inside: avoid; position: relative; overflow: hidden; }
.label h3 { font-size: 14pt; line-height: 1.2; margin: 0 0 1.5mm; }
.label dl { grid-template-columns: fit-content(42mm) 1fr; gap: 0.4mm 3mm; font-size: 10.5pt; }
.label.wide { width: 100%; }
.label.wide > dl { grid-template-columns: fit-content(85mm) 1fr; }
.label.wide .pair { grid-template-columns: 1fr 1fr; margin-top: 1.5mm; border-top: 0.75pt solid #000; padding-top: 1mm; }
.label.wide .pair dl { grid-template-columns: fit-content(26mm) 1fr; }
.label dd { font-weight: 400; }
.label dd.strong { font-weight: 700; font-size: 12pt; }
.label .warning { border: 1.5pt solid #000; font-weight: 700; padding: 0.5mm 2mm; margin: 1mm 0; }
.label .code { display: flex; gap: 3mm; align-items: flex-start; margin-top: 1.5mm; }
.label .code svg { width: 19mm; height: 19mm; flex: none; }
.label .code p { margin: 0; font-size: 9pt; overflow-wrap: anywhere; }
.label .safety { font-size: 8.5pt; margin: 1.5mm 0 0; }
.label .cross { position: absolute; left: 0; right: 0; top: 40%; text-align: center; font: 700 30pt/1 sans-serif; transform: rotate(-22deg); color: transparent; -webkit-text-stroke: 1pt #777; }
.keep-together { break-inside: avoid; }
section.own-page { break-before: page; }
@media print { body { max-width: none; padding: 0; } }
@media screen { .page-number-written { display: none; } }
.page-number-written { white-space: nowrap; }
`.trim();
