import { PAPER_MARGIN_MM, PAPERS, type PaperName, printRoom } from './paper.js';
import { LINE_HEIGHT } from './text-height.js';

/** Of the card's headings, mm: above, below and the rule. */
export const HEADING_MM = { above: 1.6, below: 0.7, rule: 0.3 };
/** Between the columns, mm. */
export const GUTTER_MM = 4;

export interface CardLook {
  paper: PaperName;
  /** Size of the type, points. */
  points: number;
  /** Height of a row to write a thread in, mm. */
  rowMm: number;
  /** Width of the left column, mm. */
  leftMm: number;
}

/** Black on white alone; every length in mm, so that the screen shows what the paper will. */
export const cardCss = ({ paper, points, rowMm, leftMm }: CardLook): string => `
@page { size: ${PAPERS[paper].css}; margin: ${PAPER_MARGIN_MM}mm; }
:root { --ink: #000; --quiet: #333; --line: #000; }
.card { width: ${printRoom(paper).widthMm}mm; max-width: none; min-height: ${printRoom(paper).heightMm - 1}mm; display: flex; flex-direction: column; }
.sheets { max-width: none; padding: 0; }
.card, .card table { font: ${points}pt/${LINE_HEIGHT} "Liberation Sans", Arial, Helvetica, sans-serif; }
.card p, .card ul, .card ol, .card dl, .card figure, .card .table { margin: 0; padding: 0; }
.card h1 { font-size: 1.7em; line-height: ${LINE_HEIGHT}; margin: 0; }
.card .job { font-weight: 700; font-size: 1.15em; overflow-wrap: anywhere; }
.card td { overflow-wrap: anywhere; }
.card.second { break-before: page; min-height: 0; }
.card h2 { font-size: 1.1em; line-height: ${LINE_HEIGHT}; margin: ${HEADING_MM.above}mm 0 ${HEADING_MM.below}mm; border-bottom: ${HEADING_MM.rule}mm solid #000; }
.card svg { max-width: none; height: revert-layer; font-family: "Liberation Sans", Arial, Helvetica, sans-serif; }
.card .facts { gap: 0 2mm; }
.card .alert { border: .7mm solid #000; padding: .8mm 1.5mm; margin: 1mm 0 0; font-weight: 700; }
.card .body { display: grid; grid-template-columns: ${leftMm}mm minmax(0, 1fr); column-gap: ${GUTTER_MM}mm; align-items: start; }
.card .across { grid-column: 1 / -1; }
.card .true-scale { margin-inline: auto; }
.card .stack { list-style: none; padding-bottom: 3.4mm; }
.card .stack li { position: relative; display: flex; gap: 2mm; min-height: 8.6mm; }
.card .stack svg { flex: none; margin-bottom: -3mm; }
.card .setup dd { font-weight: 700; }
.card .in-hoop { display: flex; gap: 2mm; align-items: center; margin-top: 1mm; }
.card .colors { display: flex; gap: 3mm; }
.card .colors > * { flex: 1; overflow: visible; }
.card caption { padding: 0; color: #000; }
.card th, .card td { padding: 0 1mm; border: .2mm solid #000; vertical-align: middle; }
.card thead th { border-bottom-width: .5mm; }
.card tbody tr { height: ${rowMm}mm; }
.card th:last-child { width: 50%; }
.card td strong { white-space: normal; }
.card td.number { white-space: normal; }
.card .marks { columns: 3; column-gap: ${GUTTER_MM}mm; list-style: none; }
.card .marks li { break-inside: avoid; padding-left: 4mm; position: relative; }
.card .marks li::before { content: ""; position: absolute; left: 0; top: .5mm; }
.card .checks li::before { width: 2.6mm; height: 2.6mm; border: .3mm solid #000; }
.card .notes li::before { content: "•"; top: 0; left: .8mm; }
.card .cautions li::before { content: "!"; top: 0; left: .8mm; font-weight: 700; }
.card .hooping { padding-left: 3.5mm; }
.card .blanks { display: flex; gap: 4mm; }
.card .grades { display: flex; flex-wrap: wrap; gap: 0 3mm; justify-content: space-between; }
.card .blank { flex: 1; display: flex; gap: 1.5mm; align-items: end; height: 8mm; }
.card .wide { flex: 2; }
.card .record { flex: 1; display: flex; flex-direction: column; }
.card .record .remarks { flex: 1; }
.card .remarks .blank { height: auto; min-height: 8mm; }
.card .fill { flex: 1; border-bottom: .3mm solid #000; }
.card .short { flex: none; width: 9mm; }
.card .grades p { height: 8mm; display: flex; gap: .8mm; align-items: end; white-space: nowrap; }
.card .ring { display: inline-block; width: 5.8mm; height: 5.8mm; font-size: .85em; border: .3mm solid #000; border-radius: 50%; text-align: center; line-height: 5.2mm; }
.card .log { margin-top: 1mm; }
.card code { display: block; overflow-wrap: anywhere; }
.card code { font: .92em/${LINE_HEIGHT} "Liberation Mono", "Courier New", monospace; }
@media print { .card { margin: 0; } body { font-size: ${points}pt; } }
`;
