/** What it is sewn on: the garment, the place, how many, the colors, and whose order it is. */
import type { Desk } from './desk.js';
import { make, part, troubleLine } from './elements.js';
import { garmentField } from './garment-field.js';

/** Options that the fields of the job give. */
export type JobOption =
  | 'fabric'
  | 'place'
  | 'hoop'
  | 'quantity'
  | 'threads'
  | 'garment-color'
  | 'order'
  | 'customer'
  | 'due'
  | 'remarks'
  | 'language';

export interface JobPart {
  readonly section: HTMLElement;
  readonly trouble: HTMLElement;
  /** Those of these options that something was said for. */
  options(...names: readonly JobOption[]): Record<string, string>;
  /** Asks for a garment where none is known; whether it had to. */
  complain(): boolean;
  /** Reads places and hoops again, which the shop's own figures may change. */
  stock(): Promise<void>;
  ownFigures(): void;
}

interface JobCalled {
  find(): void;
  /** Something is other than it was; `size` where it bears on the file check. */
  changed(size: boolean): void;
}

interface Sized {
  readonly id: string;
  readonly name: string;
}

export function jobPart(desk: Desk, called: JobCalled): JobPart {
  const { page } = desk.words;
  const { job: says, field, hint } = page;
  const section = part('job', says.title);
  let own = false;
  const garment = garmentField(desk.words, () => own);
  const trouble = troubleLine();

  const labelled = (name: keyof typeof field, input: HTMLElement): HTMLElement => {
    const why = name in hint ? hint[name as keyof typeof hint] : null;
    input.id = name;
    if (why) input.setAttribute('aria-describedby', `${name}-hint`);
    return make(
      'div',
      { class: 'field' },
      make('label', { for: name }, field[name]),
      input,
      ...(why ? [make('p', { id: `${name}-hint`, class: 'quiet small' }, why)] : []),
    );
  };
  const text = () => make('input', { autocomplete: 'off' });
  const place = make('select');
  const hoop = make('select');
  const quantity = make('input', { inputmode: 'numeric', autocomplete: 'off' });
  const language = make(
    'select',
    {},
    ...Object.entries(page.languages).map(([code, name]) => make('option', { value: code }, name)),
  );
  const inputs = {
    place,
    hoop,
    quantity,
    threads: text(),
    'garment-color': text(),
    order: text(),
    customer: text(),
    due: text(),
    remarks: text(),
    language,
  };
  const rowOf = (name: keyof typeof inputs) => labelled(name, inputs[name]);
  const go = make('button', { class: 'main-button' }, says.find);
  const form = make(
    'form',
    { class: 'fields', novalidate: true },
    ...garment.rows,
    rowOf('place'),
    rowOf('hoop'),
    rowOf('quantity'),
    make(
      'details',
      { class: 'wide', id: 'for-card' },
      make('summary', {}, says.forCard),
      make(
        'div',
        { class: 'fields' },
        ...(['threads', 'garment-color', 'order', 'customer', 'due', 'language', 'remarks'] as const).map(
          rowOf,
        ),
      ),
    ),
    make('div', { class: 'wide' }, go, trouble),
  );
  section.append(form);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    if (!garment.complain()) called.find();
  });
  const forPlan = new Set<EventTarget>([place, hoop, quantity]);
  form.addEventListener('change', ({ target }) => {
    const isGarment =
      target instanceof Element && target.closest('#for-card') === null && !forPlan.has(target);
    if (target && (isGarment || forPlan.has(target))) called.changed(target === place || target === hoop);
  });

  async function stock(): Promise<void> {
    const job = { command: 'catalog', options: { format: 'json' }, words: [] };
    const done = await desk.engine.run(job);
    if (done.exit !== 0) return;
    const { places, hoops } = JSON.parse(done.stdout) as { places: Sized[]; hoops: Sized[] };
    fill(place, places, says.unsaid);
    fill(hoop, hoops, says.smallest);
  }

  return {
    section,
    trouble,
    options(...names) {
      const said: Record<string, string> = {};
      for (const name of names) {
        const value = name === 'fabric' ? garment.fabric() : inputs[name].value.trim();
        if (value !== '' && !(name === 'language' && value === 'en')) said[name] = value;
      }
      return said;
    },
    complain: garment.complain,
    stock,
    ownFigures() {
      own = true;
    },
  };
}

/** Choices of a list, what was chosen kept. */
function fill(list: HTMLSelectElement, choices: readonly Sized[], none: string): void {
  const { value } = list;
  list.replaceChildren(
    make('option', { value: '' }, none),
    ...choices.map(({ id, name }) => make('option', { value: id }, name)),
  );
  list.value = value;
}
