import type { InlineScript } from './page.js';

const CODE = `
for (const head of document.querySelectorAll('th[data-sortable]')) {
  const button = document.createElement('button');
  button.type = 'button';
  button.append(...head.childNodes);
  head.append(button);
  button.addEventListener('click', () => {
    const rising = head.getAttribute('aria-sort') !== 'ascending';
    for (const other of head.parentElement.children) other.removeAttribute('aria-sort');
    head.setAttribute('aria-sort', rising ? 'ascending' : 'descending');
    const body = head.closest('table').tBodies[0];
    const key = (row) => row.cells[head.cellIndex].dataset.by;
    const rows = [...body.rows];
    const asNumbers = rows.every((row) => key(row) === '' || !Number.isNaN(Number(key(row))));
    rows.sort((a, b) => {
      const x = key(a), y = key(b);
      if (x === '' || y === '') return (x === '') - (y === '');
      return (rising ? 1 : -1) * (asNumbers ? x - y : x.localeCompare(y));
    });
    body.append(...rows);
  });
}
`;

/** Turns the heads of sortable columns into buttons. Rows of equal worth keep their order; empty cells stay last. */
export const SORT_SCRIPT: InlineScript = {
  code: CODE,
  sha256: 'Ja1fSfBd23IL2Tss3zQre1AFt+49Bdd8smk+VwWqe5Q=',
};
