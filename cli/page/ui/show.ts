/** What the engine made, shown or handed over. */
import type { PageFile } from '../protocol.js';
import type { Desk } from './desk.js';
import { make } from './elements.js';

const KINDS: Readonly<Record<string, string>> = {
  html: 'text/html',
  svg: 'image/svg+xml',
  csv: 'text/csv',
  json: 'application/json',
};

export const addressOf = ({ name, bytes }: PageFile): string =>
  URL.createObjectURL(
    new Blob([bytes], { type: KINDS[name.slice(name.lastIndexOf('.') + 1)] ?? 'application/octet-stream' }),
  );

/**
 * Markup of a report's renderer, which has made every text in it safe. Of a page only what stands in its `main` is read: its style
 * would be refused here, and reported.
 */
export function reportNodes(markup: string, deeper = 0): DocumentFragment {
  const start = markup.indexOf('<main');
  const shown = start < 0 ? markup : markup.slice(start, markup.lastIndexOf('</main>'));
  const read = new DOMParser().parseFromString(shown, 'text/html');
  const main = read.querySelector('main') ?? read.body;
  for (const heading of deeper > 0 ? main.querySelectorAll('h2, h3, h4') : [])
    heading.replaceWith(make(`h${Number(heading.localName[1]) + deeper}` as 'h3', {}, ...heading.childNodes));
  // What scrolls on a narrow screen is reached by the keyboard.
  for (const table of main.querySelectorAll('.table:not([tabindex])')) {
    const name = table.closest('section')?.querySelector('h2, h3, h4, h5')?.textContent ?? '';
    for (const [key, value] of Object.entries({ tabindex: '0', role: 'group', 'aria-label': name }))
      table.setAttribute(key, value);
  }
  const nodes = document.createDocumentFragment();
  nodes.append(...main.childNodes);
  return nodes;
}

/** A picture that a command drew. */
export function picture(file: PageFile, alt: string): HTMLElement {
  const image = make('img', { src: addressOf(file), alt });
  return make('figure', { class: 'drawn' }, image);
}

/** Hands a file over, and leaves a link for another time. One of the same name gives way. */
export function handOver(desk: Desk, list: HTMLElement, file: PageFile, name = file.name): void {
  const { page } = desk.words;
  for (const old of list.querySelectorAll('a')) if (old.download === name) old.closest('li')?.remove();
  const link = make('a', { href: addressOf(file), download: name }, page.out.again({ file: name }));
  list.append(make('li', {}, link));
  desk.work.say(page.out.ready({ file: name }));
  link.click();
}

/** Lists files to be taken one by one. */
export function listFiles(list: HTMLElement, files: readonly PageFile[], nameOf: (file: PageFile) => string) {
  list.replaceChildren(
    ...files.map((file) =>
      make('li', {}, make('a', { href: addressOf(file), download: nameOf(file) }, nameOf(file))),
    ),
  );
}

/** Makes links to files out of links to where they would lie beside a page, and text of those that lead nowhere. */
export function linkFiles(within: ParentNode, folder: string, files: readonly PageFile[]): void {
  for (const link of within.querySelectorAll('a')) {
    const leads = link.getAttribute('href') ?? '';
    if (leads.startsWith('#')) continue;
    const file = files.find(({ name }) => name === `${folder}/${decodeURIComponent(leads)}`);
    if (file === undefined) {
      link.replaceWith(...link.childNodes);
      continue;
    }
    link.href = addressOf(file);
    link.download = leads.replaceAll('/', '-');
  }
}

export const textOf = (file: PageFile): string => new TextDecoder().decode(file.bytes);
