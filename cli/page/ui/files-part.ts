/** The first part: which files there are. Several are told in a line each, the worst first. */

import { PROFILE_NAME } from '../../../lib/index.js';
import { DEFAULT_MAX_BYTES } from '../../../lib/io/index.js';
import { type FileLine, fileLine } from '../../../lib/report/index.js';
import type { PageFile } from '../protocol.js';
import { type Arrived, chosenIn, listenForDrops } from './arrivals.js';
import type { Desk } from './desk.js';
import { button, make, part, troubleLine } from './elements.js';

type FileTold = FileLine | { readonly why: string };

export interface FilesPart {
  readonly section: HTMLElement;
  /** Names of the designs, in the order in which they came. */
  designs(): readonly string[];
  /** The table of an order, where one was dropped. */
  table(): string | null;
  /** Takes in files that were made here. */
  add(files: readonly PageFile[]): void;
  retell(): void;
}

interface Called {
  choose(name: string): void;
  /** The set of files is another. */
  changed(): void;
  /** The shop's own figures are others. */
  profile(): void;
}

export function filesPart(desk: Desk, called: Called): FilesPart {
  const { files: says } = desk.words.page;
  const section = part('files', says.title);
  section.hidden = false;
  const told = new Map<string, FileTold | null>();
  let table: string | null = null;

  const field = make('input', { type: 'file', multiple: true, id: 'choose', class: 'unseen' });
  const folder = make('input', { type: 'file', webkitdirectory: true, id: 'choose-folder', class: 'unseen' });
  const where = make('p', { class: 'drop-words' }, says.drop);
  const zone = make(
    'div',
    { class: 'drop' },
    where,
    make(
      'p',
      { class: 'choices' },
      field,
      make('label', { for: 'choose', class: 'button' }, says.choose),
      folder,
      make('label', { for: 'choose-folder', class: 'button second' }, says.chooseFolder),
    ),
    make('p', { class: 'quiet small' }, says.profileHint),
  );
  const trouble = troubleLine();
  const note = make('p', { class: 'note' });
  const list = make('div', {
    class: 'table',
    role: 'group',
    tabindex: 0,
    'aria-label': says.title,
    hidden: true,
  });
  section.append(zone, trouble, note, list);

  listenForDrops(
    (isOver) => zone.classList.toggle('over', isOver),
    (arriving) => {
      arriving.then(take, () => {
        trouble.textContent = says.unread;
      });
    },
  );
  for (const input of [field, folder])
    input.addEventListener('change', () => {
      void take(chosenIn(input));
      input.value = '';
    });

  async function take(arrived: readonly Arrived[]): Promise<void> {
    trouble.textContent = '';
    note.textContent = '';
    const large = arrived.filter(({ file }) => file.size > DEFAULT_MAX_BYTES);
    if (large.length > 0)
      trouble.textContent = large.map(({ name }) => `${name}: ${says.tooLarge}`).join(' ');
    let read: PageFile[];
    try {
      read = await Promise.all(
        arrived
          .filter(({ file }) => file.size <= DEFAULT_MAX_BYTES)
          .map(async ({ name, file }) => ({ name, bytes: await file.arrayBuffer() })),
      );
    } catch {
      trouble.textContent = says.unread;
      return;
    }
    const designs: PageFile[] = [];
    for (const file of read) {
      if (/\.json$/i.test(file.name)) await takeProfile(file);
      else if (isOrderTable(file)) {
        desk.engine.give([file]);
        table = file.name;
        note.textContent = says.table({ file: file.name });
      } else designs.push(file);
    }
    if (designs.length > 0) add(designs);
    else if (arrived.length > 0 && read.every(({ name }) => /\.(dst)$/i.test(name)) && large.length === 0)
      trouble.textContent = says.none;
    if (arrived.length === 0) trouble.textContent = says.none;
    called.changed();
  }

  async function takeProfile({ name, bytes }: PageFile): Promise<void> {
    desk.engine.give([{ name: PROFILE_NAME, bytes }]);
    const done = await desk.work.run({ command: 'profile', options: {}, words: [] }, name, trouble);
    if (done === null) {
      // One with a mistake would stand in the way of everything else.
      desk.engine.forget([PROFILE_NAME]);
      return;
    }
    note.textContent = says.inUse({ file: name });
    called.profile();
    for (const design of told.keys()) told.set(design, null);
    if (told.size > 1) await tellAll();
  }

  function add(designs: readonly PageFile[]): void {
    desk.engine.give(designs);
    for (const { name } of designs) told.set(name, null);
    where.textContent = says.more;
    zone.classList.add('small-drop');
    if (told.size === 1) called.choose(designs[0].name);
    else void tellAll();
    called.changed();
  }

  /** One after another, so that whatever else is asked for comes in between. */
  async function tellAll(): Promise<void> {
    const quietly = make('p');
    for (const name of [...told.keys()]) {
      if (told.get(name) !== null) continue;
      const words = [name];
      const said = desk.words.page.work.checking({ file: name });
      const job = {
        command: 'vet',
        options: { format: 'json', 'fail-on': 'never', quiet: true },
        words,
      } as const;
      const done = await desk.work.run(job, said, quietly);
      if (done === null && quietly.textContent === desk.words.page.work.stopped) {
        trouble.textContent = quietly.textContent;
        break;
      }
      told.set(name, done ? fileLine(JSON.parse(done.stdout), desk.units) : { why: quietly.textContent });
      draw();
    }
    draw();
    desk.work.say(note.textContent);
  }

  function draw(): void {
    const rows = [...told].filter((one): one is [string, FileTold] => one[1] !== null);
    note.textContent = says.checked({ done: rows.length, of: told.size });
    if (told.size < 2) return;
    const { column } = desk.words.page;
    const heads = [column.file, column.verdict, column.size({}), column.stitches, column.time, column.wrong];
    list.hidden = false;
    list.replaceChildren(
      make(
        'table',
        { id: 'triage' },
        make('caption', {}, says.caption),
        make(
          'thead',
          {},
          make('tr', {}, ...heads.map((head, i) => make('th', { scope: 'col', class: numbers(i) }, head))),
        ),
        make('tbody', {}, ...rows.sort(worstFirst).map(([name, one]) => row(name, one))),
      ),
    );
  }

  function row(name: string, one: FileTold): HTMLElement {
    if ('why' in one) {
      const why = make(
        'td',
        { colspan: 5 },
        make('strong', { class: 'level-fail' }, says.notRead),
        ` ${one.why}`,
      );
      return make('tr', {}, make('th', { scope: 'row' }, name), why);
    }
    const { column } = desk.words.page;
    const heads = [column.size({}), column.stitches, column.time, column.wrong];
    const open = button(name, () => called.choose(name), { class: 'as-link' });
    const [verdict, ...cells] = one.cells;
    return make(
      'tr',
      {},
      make('th', { scope: 'row' }, open),
      make('td', {}, make('strong', { class: `level-${one.level}` }, verdict)),
      ...cells.map((cell, i) => make('td', { class: numbers(i + 2), 'data-head': heads[i] }, cell)),
    );
  }

  return {
    section,
    designs: () => [...told.keys()],
    table: () => table,
    add,
    retell() {
      if (told.size < 2) return;
      for (const design of told.keys()) told.set(design, null);
      void tellAll();
    },
  };
}

const numbers = (column: number): string | null => (column >= 2 && column <= 4 ? 'number' : null);

/** What cannot be read at all goes before everything else. */
function worstFirst([a, one]: [string, FileTold], [b, other]: [string, FileTold]): number {
  const [x, y] = [one, other].map((told) => ('found' in told ? told.found : { fail: 1e9, warn: 0 }));
  return y.fail - x.fail || y.warn - x.warn || (a < b ? -1 : 1);
}

/** Its first line names a column of files, as no stitch table does; that of a log of sew-outs names one of grades as well. */
function isOrderTable({ name, bytes }: PageFile): boolean {
  if (!/\.(csv|txt|tsv)$/i.test(name)) return false;
  const [heads] = new TextDecoder().decode(bytes.slice(0, 2000)).split(/[\r\n]/);
  return /\bfile\b/i.test(heads) && !/\bgrade\b/i.test(heads);
}
