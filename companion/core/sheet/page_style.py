"""How the page of a sheet looks, on paper first. The page lets in this style and no other, by its hash."""

from __future__ import annotations

STYLE = """
@page { margin: 15mm; }
* { box-sizing: border-box; }
body { font: 11pt/1.35 sans-serif; color: #000; background: #fff; max-width: 180mm; margin: 0 auto; padding: 0; }
h1 { font-size: 20pt; margin: 0 0 2mm; overflow-wrap: anywhere; }
h2 { font-size: 13pt; margin: 5mm 0 1.5mm; border-bottom: 0.3mm solid #000; break-after: avoid; }
h3 { font-size: 11pt; margin: 3mm 0 1mm; break-after: avoid; }
h4 { font-size: 10pt; margin: 2mm 0 0; }
p { margin: 0 0 1.5mm; overflow-wrap: anywhere; }
.parts { columns: 2; column-gap: 8mm; font-size: 10pt; }
.parts section { break-inside: avoid; margin-bottom: 3mm; }
.parts section:first-child li:first-child { font-size: 14pt; font-weight: bold; }
.parts h2 { margin-top: 0; font-size: 11pt; }
ul { list-style: none; margin: 0; padding: 0; }
li { overflow-wrap: anywhere; margin-bottom: 0.6mm; }
li.in { padding-left: 4mm; font-size: 9pt; }
svg { display: block; max-width: none; }
.picture svg { break-inside: avoid; }
.check { margin: 0 0 3mm -1mm; }
table { border-collapse: collapse; width: 100%; }
tr { break-inside: avoid; }
th { width: 18mm; text-align: right; vertical-align: top; padding: 1.4mm 3mm 1.4mm 0; font-weight: normal;
  font-variant-numeric: tabular-nums; white-space: nowrap; }
td { padding: 1.4mm 0; vertical-align: top; border-bottom: 0.15mm solid #999; overflow-wrap: anywhere; }
td + td > .boxes { display: inline-block; margin-top: 0.8mm; }
td:nth-child(2) { width: 8mm; }
.where { break-after: avoid; }
.group { display: inline-block; white-space: nowrap; margin: 0 4mm 1.2mm 0; }
.group:nth-child(4n) { margin-right: 0; }
i { display: inline-block; width: 5.2mm; height: 5.2mm; border: 0.35mm solid #000; margin-right: 1mm;
  vertical-align: middle; text-align: center; font-style: normal; line-height: 4.6mm; }
.ruler td:nth-child(3) { border: 0.35mm solid #000; padding: 1.6mm 2.5mm; background: #eee;
  -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.line { display: inline-block; width: 36mm; border-bottom: 0.3mm solid #000; height: 6mm; margin-right: 6mm; }
.hows { columns: 2; column-gap: 8mm; font-size: 9.5pt; }
.how { break-inside: avoid; margin-bottom: 4mm; }
.how h3 { margin-top: 0; }
.how ol { margin: 1mm 0; padding-left: 5mm; }
.how ul { margin: 1mm 0; padding-left: 4mm; list-style: disc; }
.blank { border-bottom: 0.3mm solid #000; height: 9mm; margin: 0; }
@media screen { body { padding: 8mm 4mm; } }
"""
STYLE_HASH = "sha256-RJQII2BbApQdwMa5q8D54CiruqVs57GJtrKK1D08yUA="
