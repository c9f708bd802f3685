/** What must be true of every command line, whatever it says and finds. */
import { basename, dirname, normalize } from 'node:path';
import { COMMANDS } from '../../../cli/commands.js';
import { decodeDesign, formatOf } from '../../../lib/format/decode.js';
import { SET_OBJECTS_NAME } from '../../../lib/profile/set-objects.js';
import { PROFILE_NAME } from '../../../lib/profile.js';
import { printable } from '../../../lib/report/render/printable.js';
import { holdWords } from '../../forbidden-words.js';
import { WENT_WRONG } from '../../report/any-report.js';
import { must } from '../broken.js';
import {
  formOf,
  holdCsv,
  holdHtml,
  holdJson,
  holdPng,
  holdStitchFile,
  holdSvg,
  holdText,
  needlePoints,
} from './hold-output.js';
import { bytesOf, type Ran, runTrial, type Trial } from './trial.js';

/** One file that cannot be read, or one row, leaves the rest. */
const GO_ON = ['vet', 'summary', 'columns', 'calibrate'];
/** They make a file of each design where they are given several, in the folder that is named for it. */
const MAKE_EACH = /^(advise|relay|resew|card)$/;

/** Plays a trial and holds all that comes of it. @throws Broken, and whatever the program throws */
export async function holdTrial(trial: Trial): Promise<Ran> {
  const ran = await runTrial(trial);
  await holdRan(trial, ran);
  return ran;
}

/** Holds what came of a trial. @throws Broken */
export async function holdRan(trial: Trial, ran: Ran): Promise<void> {
  const said = new Said(trial);
  holdEnd(trial, ran, said);
  holdErrors(ran, said);
  holdWords(ran.out, 'standard output', said.given);
  holdWords(ran.err, 'standard error', said.given);
  await holdOutput(ran, said);
  for (const [name, bytes] of ran.made) await holdFile(name, bytes, ran, said);
}

/** What a command line says, read by the rules of the house alone. */
class Said {
  readonly command: string;
  /** All words that it was given: those of the command line and of files. */
  readonly given: readonly string[];
  /** The words that figures which went wrong are known by stand in what was given. */
  readonly wordsGiven: boolean;

  constructor(readonly trial: Trial) {
    this.command = trial.argv[0];
    // Every second byte of a table in UTF-16 is zero.
    this.given = [
      ...trial.argv,
      trial.stdin ?? '',
      ...Object.keys(trial.files),
      ...Object.values(trial.files).map((f) => bytesOf(f).toString('latin1')),
    ].map((text) => text.replaceAll('\0', ''));
    this.wordsGiven = this.given.some((text) => WENT_WRONG.test(text));
  }

  has(option: string): boolean {
    return this.trial.argv.some((word) => word === `--${option}` || word.startsWith(`--${option}=`));
  }

  /** Every value of an option, the last one last. */
  values(option: string, alias?: string): string[] {
    return this.trial.argv.flatMap((word, i, argv) => {
      if (word === `--${option}` || (alias !== undefined && word === alias)) return argv[i + 1] ?? [];
      return word.startsWith(`--${option}=`) ? word.slice(option.length + 3) : [];
    });
  }

  /** The last value of it. */
  value(option: string, alias?: string): string | undefined {
    return this.values(option, alias).at(-1);
  }

  get out(): string | undefined {
    return this.value('out', '-o');
  }

  /** It lies in the folder for what is made of several, and is called as a design of the trial is. */
  isMadeOfOne(name: string): boolean {
    const { command, trial } = this;
    const folders = this.values('out-dir').map((folder) => normalize(`shop/${folder}/`));
    const stem = (path: string): string => basename(path).replace(/\.[^.]*$/, '');
    const stems = Object.keys(trial.files).flatMap((path) => [stem(path), basename(path)]);
    return (
      MAKE_EACH.test(command) &&
      folders.includes(normalize(`${dirname(normalize(`shop/${name}`))}/`)) &&
      stems.includes(stem(name))
    );
  }

  /** Everything that may be written, by its way from the folder around. */
  get targets(): string[] {
    const names = [...this.values('out', '-o'), ...this.values('map'), ...this.values('summary')];
    if (this.has('init')) names.push('lieflat.config.json');
    const folders = ['', ...this.values('out-dir')];
    return names.flatMap((name) => folders.map((folder) => normalize(`shop/${folder}/${name}`)));
  }
}

/** A design that comes out of sewing again as it is, in text or JSON. */
const AS_IT_IS = /nothing\s+to\s+write|"unchanged":\s*true/;

function holdEnd({ stop }: Trial, { code, out, made, changed }: Ran, said: Said): void {
  must([0, 1, 2].includes(code) || (code === 130 && stop === true), `exit code ${code}`);
  must(code !== 1 || ['vet', 'summary', 'resew'].includes(said.command), `exit code 1 of ${said.command}`);
  const replaced = changed.filter(
    (name) =>
      !(said.has('force') && /\.(md|txt)$|^lieflat\.config/.test(name)) &&
      !(said.has('keep-threads') && name.endsWith('.json')),
  );
  must(replaced.length === 0, `an input is not what it was: ${replaced[0]}`);
  const { targets } = said;
  // What a shop says of an object is kept in its own file, and told of, before the command begins.
  const asked = [...made.keys()].filter(
    (name) =>
      !(said.has('is') && basename(name) === SET_OBJECTS_NAME) &&
      !(said.has('keep-threads') && basename(name) === PROFILE_NAME),
  );
  for (const name of asked) {
    const whole = stop ? name.replace(/\.part$/, '') : name;
    must(
      targets.includes(normalize(`shop/${whole}`)) || said.isMadeOfOne(whole),
      `a file is left that nobody asked for: ${JSON.stringify(name)}`,
    );
  }
  must(
    code !== 2 || GO_ON.includes(said.command) || asked.every((name) => said.isMadeOfOne(name)),
    'a file is written by a command that says it could not',
  );
  // What relaying or sewing again does not change is not written.
  const asItWas = said.command === 'relay' || (said.command === 'resew' && AS_IT_IS.test(out));
  if (code === 0 && said.out !== undefined && !said.has('dry-run') && !asItWas)
    must(made.size > 0 || changed.length > 0, 'exit code 0 and nothing written');
}

function holdErrors({ code, err }: Ran, { command, wordsGiven }: Said): void {
  must(!/went wrong inside/.test(err), `a fault of its own: ${err}`);
  holdText(err, 'standard error', wordsGiven);
  const lines = err.split('\n').filter((line) => line !== '');
  must(
    lines.every((line) => !/^\s+at /.test(line)),
    'a stack trace',
  );
  const faults = lines.filter((line) => line.startsWith('lieflat: '));
  if (code === 2) {
    must(faults.length > 0, `exit code 2 without a word: ${err}`);
    if (!GO_ON.includes(command) && !MAKE_EACH.test(command))
      must(faults.length === 1, `more than one line of an error: ${err}`);
  }
  if (command in COMMANDS && !GO_ON.includes(command))
    for (const line of lines)
      must(/^(lieflat: |wrote |kept in |taken as )/.test(line), `a line that is not ours: ${line}`);
}

/** Control sequence SGR of ECMA-48: how letters look. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they begin with one
const LOOK = /\u001b\[\d+m/g;

async function holdOutput({ code, out }: Ran, said: Said): Promise<void> {
  const format = said.value('format');
  const { trial, wordsGiven } = said;
  const coloured = trial.columns !== undefined && (format ?? 'text') === 'text';
  holdText(coloured ? out.replace(LOOK, '') : out, 'standard output', wordsGiven || format === 'html');
  // A list that was stopped need not be whole.
  if (out === '' || (code === 130 && format !== 'jsonl')) return;
  if (format === 'json' || format === 'jsonl') holdJson(out, 'standard output');
  else if (format === 'csv') holdCsv(out, 'standard output');
  else if (format === 'html') holdHtml(out, 'standard output', wordsGiven);
}

async function holdFile(name: string, bytes: Buffer, ran: Ran, said: Said): Promise<void> {
  if (name.endsWith('.part')) return;
  const form = formOf(bytes, name);
  const text = bytes.toString('utf8');
  const format = said.value('format');
  if (form !== 'png' && form !== 'dst' && form !== 'table')
    holdText(text, name, said.wordsGiven || form === 'html');
  if (form === 'html' || form === 'svg' || form === 'text') holdWords(text, name, said.given);
  if (form === 'html') holdHtml(text, 'the page', said.wordsGiven);
  else if (form === 'svg') holdSvg(text, 'the picture');
  else if (form === 'png') holdPng(bytes, 'the picture', pixelsOf(name, said));
  else if (form === 'json') holdJson(text, 'the report');
  else if (form === 'csv') holdCsv(text, 'the table');
  else if (form === 'dst' || form === 'table') await holdStitches(name, bytes, form, ran, said);
  const asked = /\.(svg|png)$/i.exec(name)?.[1].toLowerCase();
  if (asked !== undefined && /^(draw|pucker|resew|proof)$/.test(said.command) && format === undefined)
    must(form === asked, `${name} is ${form}`);
}

const pixelsOf = (name: string, said: Said): number | null =>
  said.command === 'draw' && name.endsWith('.png') ? Number(said.value('pixels') ?? 1600) : null;

/** A stitch file holds what was said of it, or, converted, what the other held. */
async function holdStitches(
  name: string,
  bytes: Buffer,
  form: 'dst' | 'table',
  ran: Ran,
  said: Said,
): Promise<void> {
  const sources = Object.values(said.trial.files).map(bytesOf);
  const written = await holdStitchFile(bytes, form === 'dst' ? 'dst' : 'csv', name, sources);
  const points = needlePoints(written);
  if (said.value('format') === 'json' && ran.out.startsWith('{')) {
    const report = JSON.parse(ran.out);
    const stitches = report.stitchesAfter ?? report.design?.after.stitches;
    must(
      points.length / 2 === stitches,
      `${stitches} stitches were said, ${points.length / 2} are in the file`,
    );
  }
  const { command, trial } = said;
  if (command !== 'convert') return;
  const others = [...said.values('profile'), ...said.values('out', '-o')];
  const word = trial.argv.find((w) => normalize(w) in trial.files && !others.includes(w));
  const source = word === undefined ? undefined : bytesOf(trial.files[normalize(word)]);
  if (word === undefined || source === undefined) return;
  const format = formatOf(word, source);
  must(format !== null, `${printable(word)} is of no format and was converted`);
  const design = await decodeDesign(source, format);
  const before = needlePoints(design);
  must(before.length === points.length, `${before.length / 2} stitches have become ${points.length / 2}`);
  // A table holds a hundredth of a millimetre, a stitch file a tenth.
  const fineness = form === 'table' || format === 'dst' ? 1e-9 : 0.05 + 1e-9;
  const moved = before.findIndex((at, i) => Math.abs(at - points[i]) > fineness);
  must(moved < 0, `needle point ${moved >> 1} has moved`);
}
