/** The whole order: all files on one garment, or the lines of a table. */
import type { Desk } from './desk.js';
import { button, make, part, troubleLine } from './elements.js';
import type { JobPart } from './job-part.js';
import { linkFiles, listFiles, reportNodes, textOf } from './show.js';

const FOLDER = 'order';

export interface OrderPart {
  readonly section: HTMLElement;
  /** @param table the table of the order, where one was dropped */
  show(designs: readonly string[], table: string | null): void;
}

export function orderPart(desk: Desk, job: JobPart): OrderPart {
  const { order: says, work: doing } = desk.words.page;
  const section = part('order-part', says.title);
  const use = make('p', { class: 'quiet' });
  const trouble = troubleLine();
  const body = make('div', { class: 'order' });
  const files = make('ul', { class: 'files' });
  const heading = make('h3', { hidden: true }, says.files);
  let words: readonly string[] = [];
  let ofTable = false;
  section.append(
    use,
    make(
      'p',
      { class: 'choices' },
      button(says.go, () => void go()),
    ),
    trouble,
    heading,
    files,
    body,
  );

  async function go(): Promise<void> {
    const job_ = job.options('fabric', 'place', 'hoop', 'quantity', 'language');
    if (!ofTable && job.complain()) return;
    const options = { ...job_, 'out-dir': FOLDER, format: 'json', units: desk.units };
    const said = doing.order({ files: words.length });
    const done = await desk.work.run({ command: 'order', options, words }, said, trouble);
    if (done === null) return;
    trouble.textContent = done.notes;
    const kept = done.files.filter(({ name }) => !/\.json$/.test(name));
    const sheet = kept.find(({ name }) => name === `${FOLDER}/order.html`);
    body.replaceChildren(...(sheet ? [reportNodes(textOf(sheet), 1)] : []));
    linkFiles(body, FOLDER, kept);
    listFiles(files, kept, ({ name }) => name.slice(FOLDER.length + 1).replaceAll('/', '-'));
    heading.hidden = kept.length === 0;
    desk.work.say(doing.done);
  }

  return {
    section,
    show(designs, table) {
      ofTable = table !== null;
      words = table === null ? designs : [table];
      section.hidden = !(ofTable || designs.length > 1);
      use.textContent = says.use({ files: designs.length, table });
    },
  };
}
