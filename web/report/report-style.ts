/** How the report looks, on a screen and on A4. */
import { PRINT } from '../figure/print-palette.ts';

/**
 * @param recording stands on every page, so that stray sheets find their way back
 * @param edge above every page; empty for a job
 */
export function reportStyle(recording: string, edge: string): string {
  return `
@page {
  size: A4;
  margin: 18mm 16mm 18mm;
  @top-center { content: "${edge}"; font: bold 10pt sans-serif; color: ${PRINT.buoy}; }
  @bottom-left { content: "${recording}"; font: 8pt sans-serif; color: ${PRINT.faint}; }
  @bottom-right { content: counter(page) " / " counter(pages); font: 8pt sans-serif; color: ${PRINT.faint}; }
}
* { box-sizing: border-box; }
html { background: #fff; color: ${PRINT.ink}; font: 10.5pt/1.4 sans-serif; }
body { margin: 0 auto; max-width: 180mm; padding: 8mm 4mm; }
h1 { font: 600 20pt/1.2 serif; margin: 0 0 1mm; }
h2 { font: 600 12.5pt/1.2 serif; margin: 7mm 0 2mm; padding-bottom: 1mm; border-bottom: 1px solid ${PRINT.rule}; break-after: avoid; }
h3 { font: 600 10.5pt/1.2 sans-serif; margin: 4mm 0 1mm; break-after: avoid; }
p { margin: 0 0 1.5mm; }
header p, table + p { margin-top: 1.5mm; }
.quiet { color: ${PRINT.faint}; font-size: 9pt; }
.place { font-size: 12pt; margin-bottom: 3mm; overflow-wrap: anywhere; }
.banner { border: 3px solid ${PRINT.buoy}; padding: 3mm 4mm; margin: 0 0 4mm; font-weight: 600; }
.banner b { display: block; font-size: 15pt; text-transform: uppercase; letter-spacing: 0.08em; color: ${PRINT.buoy}; }
.verdict { border: 1px solid ${PRINT.ink}; border-left-width: 8px; padding: 3mm 5mm; break-inside: avoid; }
.verdict-good { border-left-style: double; }
.verdict-warning { border-left-color: ${PRINT.buoy}; }
.verdict-calm { border-style: dashed; border-left-style: dashed; }
.verdict strong { display: block; font-size: 16pt; line-height: 1.25; margin-bottom: 1mm; }
.verdict .rule { margin: 2mm 0 0; padding-top: 2mm; border-top: 1px solid ${PRINT.rule}; }
.hash { font-family: monospace; font-size: 10pt; letter-spacing: 0.02em; overflow-wrap: anywhere; }
.caution { font-weight: 600; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: 0.8mm 3mm 0.8mm 0; border-bottom: 1px solid ${PRINT.rule}; overflow-wrap: anywhere; white-space: pre-wrap; }
th { font-weight: 500; color: ${PRINT.faint}; }
.facts th { width: 38%; }
tr { break-inside: avoid; }
figure { margin: 0 0 4mm; break-inside: avoid; }
figure svg { display: block; width: 100%; height: auto; }
.sign { break-inside: avoid; }
.sign td { height: 13mm; }
.stamp { position: fixed; inset: 0; z-index: 1; display: grid; place-items: center; pointer-events: none; font: 700 80pt/1 serif; text-transform: uppercase; letter-spacing: 0.06em; color: ${PRINT.buoy}; opacity: 0.13; rotate: -35deg; }
@media print {
  body { padding: 0; max-width: none; }
  * { print-color-adjust: exact; }
}
`;
}
