/** Sewing again over picked-out stitches: how much larger, by which way, and which old holes will show. */
import { type ResewReport, resewInPage } from '../../../lib/report/index.js';
import { RESEW_MODES } from '../../../lib/rework/index.js';
import { bare, type Desk, stemOf } from './desk.js';
import { make, part, troubleLine } from './elements.js';
import type { JobPart } from './job-part.js';
import { handOver, picture, reportNodes } from './show.js';

export interface LargerPart {
  readonly section: HTMLElement;
  show(): void;
}

/** The label says percent, so that a bare number is one. */
const inPercent = (typed: string): string => (/^[\d.]+$/.test(typed) ? `${typed}%` : typed);

/** `name-drop-widen-5pct.dst`: files made by other ways or at other growths lie beside each other. */
const grownName = (file: string, { mode, scale }: ResewReport): string =>
  `${stemOf(file)}-${mode}-${Number(((scale - 1) * 100).toFixed(1))}pct.dst`;

export function largerPart(desk: Desk, job: JobPart): LargerPart {
  const { larger: says, field, work: doing } = desk.words.page;
  const section = part('larger', says.title);
  const scale = make('input', { id: 'scale', value: '5', inputmode: 'decimal', autocomplete: 'off' });
  const slack = make('input', { id: 'slack', value: '', inputmode: 'decimal', autocomplete: 'off' });
  const mode = make(
    'select',
    { id: 'mode' },
    make('option', { value: '' }, says.way.best),
    ...RESEW_MODES.map((one) => make('option', { value: one }, says.way[one])),
  );
  const find = make('input', { type: 'checkbox', id: 'find' });
  const trouble = troubleLine();
  const body = make('div');
  const files = make('ul', { class: 'files' });
  const form = make(
    'form',
    { class: 'fields', novalidate: true },
    make('div', { class: 'field' }, make('label', { for: 'scale' }, field.scale), scale),
    make('div', { class: 'field' }, make('label', { for: 'slack' }, field.slack), slack),
    make('div', { class: 'field' }, make('label', { for: 'mode' }, field.mode), mode),
    make('div', { class: 'wide' }, make('label', { class: 'answer' }, find, says.find)),
    make('div', { class: 'wide' }, make('button', {}, says.go), trouble),
  );
  section.append(make('p', { class: 'quiet' }, says.use), form, body, files);
  find.addEventListener('change', () => {
    scale.disabled = find.checked;
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    void enlarge();
  });

  async function enlarge(): Promise<void> {
    const file = desk.file!;
    const [out, map] = [`${stemOf(file)}-larger.dst`, `${stemOf(file)}-holes.svg`];
    const options = {
      ...job.options('place', 'hoop'),
      ...(mode.value && { mode: mode.value }),
      ...(find.checked ? { find: true as const } : { scale: inPercent(scale.value.trim()) }),
      ...(slack.value.trim() && { slack: slack.value.trim() }),
      ...{ out, map, format: 'json', units: desk.units },
    };
    const done = await desk.work.run(
      { command: 'resew', options, words: [file] },
      doing.holes({ file }),
      trouble,
    );
    if (done === null || file !== desk.file) return;
    const report = JSON.parse(done.stdout) as ResewReport;
    const shown = reportNodes(resewInPage(report, desk.units));
    const answer = shown.querySelector('.verdict');
    const said = answer?.textContent ?? '';
    if (done.exit === 1) answer?.after(make('p', { class: 'next' }, says.shows));
    body.replaceChildren(shown);
    files.replaceChildren();
    for (const one of done.files) {
      if (one.name === map) body.querySelector('dl')?.before(picture(one, says.map({ file: bare(file) })));
      else handOver(desk, files, one, grownName(file, report));
    }
    desk.work.say(said);
  }

  return {
    section,
    show() {
      section.hidden = desk.file === null;
      body.replaceChildren();
      files.replaceChildren();
      trouble.textContent = '';
    },
  };
}
