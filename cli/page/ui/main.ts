/** The page: a sheet of questions and answers, from the file to what is handed out. */
import { pageWords } from '../../../lib/report/index.js';
import { startEngine } from '../engine.js';
import { checkPart } from './check-part.js';
import type { Desk } from './desk.js';
import { make } from './elements.js';
import { filesPart } from './files-part.js';
import { jobPart } from './job-part.js';
import { largerPart } from './larger-part.js';
import { orderPart } from './order-part.js';
import { outPart } from './out-part.js';
import { setupPart } from './setup-part.js';
import type { LengthUnits } from './words.js';
import { workBar } from './work.js';

/** The program of the worker: the build puts it before this script. */
declare const WORKER_TEXT: string;

const engine = startEngine(WORKER_TEXT);
const words = pageWords('mm');
const desk: Desk = {
  engine,
  work: workBar(engine, words),
  words,
  units: 'mm',
  file: null,
  relaid: null,
};
const { page } = words;

const files = filesPart(desk, {
  choose,
  changed() {
    job.section.hidden = false;
    order.show(files.designs(), files.table());
  },
  profile() {
    job.ownFigures();
    void job.stock();
    begin();
  },
});
const check = checkPart(desk);
const job = jobPart(desk, {
  find() {
    if (desk.file === null) job.trouble.textContent = page.job.noFile;
    else void setup.find();
  },
  changed(size) {
    if (setup.plan() !== null) {
      setup.clear();
      job.trouble.textContent = page.job.changed;
    }
    if (size) void check.check(job.options('place', 'hoop'));
  },
});
const setup = setupPart(desk, job, () => {
  check.show(setup.plan());
  out.show(setup.plan());
});
const out = outPart(desk, job, (file) => engine.give([file]));
const larger = largerPart(desk, job);
const order = orderPart(desk, job);

/** Looks at a file. */
function choose(name: string): void {
  desk.file = name;
  begin();
  if (files.designs().length > 1) check.section.querySelector('h2')?.focus();
}

function begin(): void {
  if (desk.file === null) return;
  void check.check(job.options('place', 'hoop'));
  setup.clear();
  larger.show();
}

function unitsChoice(): HTMLElement {
  const choice = make(
    'select',
    { id: 'units' },
    make('option', { value: 'mm' }, page.millimeters),
    make('option', { value: 'in' }, page.inches),
  );
  choice.addEventListener('change', () => {
    desk.units = choice.value as LengthUnits;
    desk.words = pageWords(desk.units);
    begin();
    files.retell();
  });
  return make('p', { class: 'units' }, make('label', { for: 'units' }, page.units), choice);
}

document.body.prepend(
  make('a', { class: 'skip', href: '#main' }, page.skip),
  make(
    'header',
    { class: 'head' },
    make('p', { class: 'name' }, 'lieflat'),
    make('h1', {}, page.ask),
    make('p', {}, page.promise),
    unitsChoice(),
  ),
  make(
    'main',
    { id: 'main', tabindex: -1 },
    files.section,
    check.section,
    job.section,
    order.section,
    setup.section,
    out.section,
    larger.section,
  ),
  desk.work.bar,
  make('footer', { class: 'small quiet' }, make('p', {}, page.foot)),
);
void job.stock();
