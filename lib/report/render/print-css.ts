/** What changes on paper, for every page: it begins on its first sheet, and nothing that belongs together is torn apart. */
export const PRINT_CSS = `@page { margin: 12mm; }
@media print {
  :root { --ink: #000; --link: #000; }
  body { padding: 0; font-size: 10pt; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .skip { display: none; }
  .table { overflow: visible; }
  thead { display: table-header-group; }
  tr, svg, figure { break-inside: avoid; }
  h2, h3, h4, caption { break-after: avoid; }
  th button { text-decoration: none; white-space: normal; }
  th button::after { content: none; }
  table { font-size: 8pt; }
  th, td { padding: .25em .35em; }
  .severity { min-width: 0; font-size: 7.5pt; }
}
`;
