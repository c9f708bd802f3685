/** What to load: the plan for the garment, why, how sure, and what may hurt. */
import { type AdviseReport, adviceInPage } from '../../../lib/report/index.js';
import type { Desk } from './desk.js';
import { make, part } from './elements.js';
import type { JobPart } from './job-part.js';
import { reportNodes } from './show.js';

export interface SetupPart {
  readonly section: HTMLElement;
  /** The plan for the file that is looked at; null where none was found yet. */
  plan(): AdviseReport | null;
  find(): Promise<void>;
  clear(): void;
}

/** @param found called when there is a plan, and when there is none any more */
export function setupPart(desk: Desk, job: JobPart, found: () => void): SetupPart {
  const { setup: says } = desk.words.page;
  const section = part('setup', says.title);
  const body = make('div');
  const care = make(
    'section',
    { class: 'care' },
    make('h3', {}, says.toDo),
    ...says.cautions.map((text) => make('p', { class: 'caution' }, text)),
  );
  section.append(body, care);
  let plan: AdviseReport | null = null;

  function clear(): void {
    plan = null;
    section.hidden = true;
    body.replaceChildren();
    found();
  }

  async function find(): Promise<void> {
    const { file, words } = desk;
    if (file === null) return;
    clear();
    const options = { ...job.options('fabric', 'place', 'hoop', 'quantity'), format: 'json' };
    const said = words.page.work.setup({ file });
    const done = await desk.work.run({ command: 'advise', options, words: [file] }, said, job.trouble);
    if (done === null || file !== desk.file) return;
    plan = JSON.parse(done.stdout) as AdviseReport;
    body.replaceChildren(reportNodes(adviceInPage(plan, desk.units)));
    section.hidden = false;
    desk.work.say(body.querySelector('.verdict')?.textContent ?? '');
    section.querySelector('h2')?.focus();
    found();
  }

  return { section, plan: () => plan, find, clear };
}
