/** The garment: by its everyday name, or by four questions about its fabric. */
import {
  answersIn,
  CATALOGUE,
  fabricFor,
  GARMENT_KINDS,
  garmentsAkin,
  isFabricNamed,
} from '../../../lib/materials/index.js';
import { fabricQuestions } from '../../../lib/report/index.js';
import { make } from './elements.js';
import type { PageWords } from './words.js';

export interface GarmentField {
  readonly rows: readonly HTMLElement[];
  /** What `--fabric` is given; empty where nothing was said. */
  fabric(): string;
  /** Asks for what is missing, and goes there. */
  complain(): boolean;
}

/** @param ownNames whether the shop's own figures may name more garments than are built in */
export function garmentField({ page }: PageWords, ownNames: () => boolean): GarmentField {
  const { job: says, field, hint } = page;
  const list = make(
    'datalist',
    { id: 'garments' },
    ...GARMENT_KINDS.flatMap(({ names }) => names.map((name) => make('option', { value: name }))),
  );
  const input = make('input', {
    id: 'fabric',
    list: 'garments',
    autocomplete: 'off',
    'aria-describedby': 'fabric-hint fabric-trouble',
  });
  const trouble = make('p', { id: 'fabric-trouble', class: 'trouble', role: 'alert' });
  const row = make(
    'div',
    { class: 'field wide' },
    make('label', { for: 'fabric' }, field.fabric),
    input,
    make('p', { id: 'fabric-hint', class: 'quiet small' }, hint.fabric),
    trouble,
    list,
  );
  const led = make('p', { class: 'note', role: 'status' });
  const sets = fabricQuestions().map(({ question, ask, answers }) =>
    make(
      'fieldset',
      {},
      make('legend', {}, ask),
      ...answers.map(({ word, text }) =>
        make(
          'label',
          { class: 'answer' },
          make('input', { type: 'radio', name: `ask-${question}`, value: word }),
          text,
        ),
      ),
    ),
  );
  const questions = make(
    'details',
    { class: 'wide', id: 'questions' },
    make('summary', {}, says.unlisted),
    ...sets,
    led,
  );
  let answered = '';

  questions.addEventListener('change', () => {
    const said = [...questions.querySelectorAll<HTMLInputElement>('input:checked')].map(({ value }) => value);
    const answers = said.length === sets.length ? answersIn(said.join(',')) : null;
    if (answers === null) return;
    answered = fabricFor(answers);
    input.value = '';
    calm();
    led.textContent = says.ledTo({ name: CATALOGUE.fabrics[answered].name });
  });
  input.addEventListener('input', () => {
    calm();
    answered = '';
    led.textContent = '';
    for (const one of questions.querySelectorAll<HTMLInputElement>('input:checked')) one.checked = false;
  });

  function calm(): void {
    trouble.textContent = '';
    input.removeAttribute('aria-invalid');
  }

  const fabric = (): string => answered || input.value.trim();
  return {
    rows: [row, questions],
    fabric,
    complain() {
      const typed = fabric();
      if (typed !== '' && (ownNames() || isFabricNamed(CATALOGUE, typed))) return false;
      trouble.textContent = typed === '' ? says.empty : says.unknown({ typed, akin: garmentsAkin(typed) });
      input.setAttribute('aria-invalid', 'true');
      questions.open = true;
      input.focus();
      return true;
    },
  };
}
