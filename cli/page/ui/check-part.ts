/** Is it good to sew? The verdict in large words, the picture, what was found. */
import type { AdviseReport } from '../../../lib/report/index.js';
import type { Desk } from './desk.js';
import { make, part, troubleLine } from './elements.js';
import { reportNodes } from './show.js';

export interface CheckPart {
  readonly section: HTMLElement;
  /** Checks the file that is looked at. */
  check(options: Readonly<Record<string, string>>): Promise<void>;
  /** Says whose word holds on underlay: the check knows no garment, a plan does. */
  show(plan: AdviseReport | null): void;
}

export function checkPart(desk: Desk): CheckPart {
  const { check: says } = desk.words.page;
  const section = part('check', says.title);
  const trouble = troubleLine();
  const onGarment = make('p', { class: 'next', hidden: true }, says.onGarment);
  const body = make('div');
  section.append(trouble, onGarment, body);

  async function check(options: Readonly<Record<string, string>>): Promise<void> {
    const { file } = desk;
    if (file === null) return;
    section.hidden = false;
    const { page } = desk.words;
    const job = {
      command: 'vet',
      options: { ...options, format: 'html', 'fail-on': 'never', units: desk.units },
      words: [file],
    };
    const done = await desk.work.run(job, page.work.checking({ file }), trouble);
    if (file !== desk.file) return;
    body.replaceChildren(...(done ? [sheetOf(done.stdout, file)] : []));
    if (done === null) desk.work.say(page.work.failed({ why: trouble.textContent ?? '' }));
  }

  /** The page of one design, with what is long folded away and the next step said. */
  function sheetOf(markup: string, file: string): DocumentFragment {
    const nodes = reportNodes(markup, 1);
    const verdict = nodes.querySelector('.verdict');
    const word = verdict?.querySelector('.severity');
    const level = ['fail', 'warn', 'sound'].find((one) => word?.classList.contains(one)) as
      | keyof typeof says.next
      | undefined;
    const tally = [...(verdict?.childNodes ?? [])]
      .filter((node) => node !== word)
      .map((node) => node.textContent)
      .join('')
      .trim();
    if (level) verdict!.after(make('p', { class: 'next' }, says.next[level]));
    desk.work.say(says.said({ file, verdict: word?.textContent ?? '', tally }));
    const objects = nodes.querySelector('.on-screen');
    if (objects) {
      const folded = make('details', {}, make('summary', {}, says.objects));
      objects.replaceWith(folded);
      objects.querySelector('h4')?.remove();
      folded.append(objects);
    }
    return nodes;
  }

  return {
    section,
    check,
    show(plan) {
      onGarment.hidden = plan === null;
    },
  };
}
