/** What must be true of a command that was killed or stopped at any moment, and of the next run of it. */
import { wordsOf } from '../cli/writing-lines.js';
import { disturbed, type Ended, type Moment, type Signal, undisturbed } from './process.js';
import { OLD, type Scene, settled, TEMPORARY, type Undisturbed } from './scene.js';

/** One disturbance. */
export interface Kill {
  usual: Undisturbed;
  signal: Signal;
  moment: Moment;
  /** Old files are there, and the line has `--force`. */
  there: boolean;
}

/** What came of one. */
export interface Held {
  /** How far it had come: ended by the signal, stopped in order, or finished before. */
  end: 'killed' | 'stopped' | 'finished';
  /** It left a temporary file for the next run to remove. */
  leftTemporary: boolean;
  lost: string[];
  falselyWhole: string[];
  temporaries: string[];
  /** Whatever else is not as it should be. */
  other: string[];
}

type State = 'old' | 'whole' | 'stopped' | 'broken';

export async function holdKill(scene: Scene, kill: Kill): Promise<Held> {
  const { usual, signal, moment, there } = kill;
  const { line, whole } = usual;
  scene.putBack(line, there);
  const ended = await disturbed(scene.program, wordsOf(line, there), scene.folder, { signal, moment });
  const now = scene.contents();
  const temporaries = [...now.keys()].filter((name) => TEMPORARY.test(name));
  const end = ended.signal ? 'killed' : ended.code === 130 ? 'stopped' : 'finished';
  const held: Held = {
    end,
    leftTemporary: temporaries.length > 0,
    lost: [],
    falselyWhole: [],
    temporaries: [],
    other: [...otherThanSaid(kill, ended), ...scene.spoiledInputs(now).map((name) => `${name} is spoiled`)],
  };
  for (const [name, text] of whole) {
    const state = stateOf(name, now.get(name), text, there);
    if (state === 'broken') {
      if (there) held.lost.push(name);
      if (now.has(name)) held.falselyWhole.push(name);
    }
    if (state === 'stopped' && end !== 'stopped') held.falselyWhole.push(name);
    if (end === 'finished' && state !== 'whole') held.other.push(`${name} is ${state} though all was done`);
  }
  held.other.push(...wrongParts(usual, ended, now));
  // A batch that has begun to write ends in order.
  if (isBatch(usual) && signal !== 'SIGKILL' && held.leftTemporary)
    held.other.push(`${temporaries} was left though it was asked to stop`);
  if (end === 'stopped' && whole.has('r.jsonl')) held.other.push(...(await wrongRest(scene, usual)));
  const next = await undisturbed(scene.program, wordsOf(line, true), scene.folder);
  const after = scene.contents();
  held.temporaries.push(...[...after.keys()].filter((name) => TEMPORARY.test(name)));
  if (next.code !== 0) held.other.push(`the next run ends with ${next.code}: ${next.err}`);
  for (const [name, text] of whole)
    if (settled(name, after.get(name) ?? '') !== text) held.other.push(`the next run writes another ${name}`);
  return held;
}

const isBatch = ({ line: { command } }: Undisturbed): boolean => command === 'vet' || command === 'columns';
const STOPPED = /^stopped after (\d+) of (\d+) files/;

/** What lies under the name of a target. */
function stateOf(name: string, text: string | undefined, whole: string, there: boolean): State {
  if (text === undefined) return there ? 'broken' : 'old';
  if (there && text === OLD) return 'old';
  if (settled(name, text) === whole) return 'whole';
  return saysStopped(name, text, whole) ? 'stopped' : 'broken';
}

/** Whether a list in lines, or a summary, says itself that it is not whole, and is right in what it holds. */
function saysStopped(name: string, text: string, whole: string): boolean {
  if (name.endsWith('.jsonl')) {
    const lines = text.split('\n');
    if (lines.pop() !== '') return false;
    const { stopped } = JSON.parse(lines.pop() ?? '{}');
    return stopped?.done < stopped?.of && stopped.done >= lines.length && areRowsOf(lines, whole);
  }
  if (name === 'r.json') return JSON.parse(text).stopped?.of > 0;
  return /^r\.(html|txt)$/.test(name) && /stopped after \d+ of \d+ files/.test(text);
}

/** Whether all are lines of a whole list, each once. */
function areRowsOf(lines: readonly string[], whole: string): boolean {
  const known = new Set(whole.split('\n'));
  return new Set(lines).size === lines.length && lines.every((line) => known.has(line));
}

/** What is wrong with how it ended and what it said. */
function otherThanSaid({ usual, signal }: Kill, { code, signal: by, err }: Ended): string[] {
  const wrong: string[] = [];
  const lines = err.split('\n').filter(Boolean);
  const stopped = lines.filter((said) => STOPPED.test(said));
  const mayStop = isBatch(usual) && signal !== 'SIGKILL';
  if (by ? by !== signal : code !== 0 && !(mayStop && code === 130))
    wrong.push(`it ended with ${by ?? code}: ${err}`);
  if (stopped.length !== (code === 130 ? 1 : 0)) wrong.push(`it said ${JSON.stringify(err)}`);
  const known = new Set(usual.said.err.split('\n'));
  const errors = lines.filter((said) => !known.has(said) && /^lieflat: |^\s+at |Error/.test(said));
  return [...wrong, ...errors];
}

/** What is wrong with the parts that lie beside the targets of a batch that was stopped. */
function wrongParts(
  { whole }: Undisturbed,
  { code, err }: Ended,
  now: ReadonlyMap<string, string>,
): string[] {
  const wrong: string[] = [];
  for (const [part, text] of now) {
    if (!part.endsWith('.part') || TEMPORARY.test(part)) continue;
    const name = part.slice(0, -'.part'.length);
    const all = whole.get(name);
    if (all === undefined || code !== 130 || !err.includes(`what was done is in ${part} (`))
      wrong.push(`nobody told of ${part}`);
    else if (name.endsWith('.csv') ? !areRowsOf(text.split('\n'), all) : !saysStopped(name, text, all))
      wrong.push(`${part} is no part of ${name}`);
    if (settled(name, text) === all) wrong.push(`${part} is the whole ${name}`);
  }
  return wrong;
}

/** What is wrong where a report that was stopped is gone on from. */
async function wrongRest(scene: Scene, { line, whole }: Undisturbed): Promise<string[]> {
  const rest = [
    ...line.args.map((word) => (word === 'before.jsonl' ? 'r.jsonl' : word)),
    ...['--out', 'rest.jsonl'],
  ];
  const { code, err } = await undisturbed(scene.program, [line.command, ...rest], scene.folder);
  if (code !== 0) return [`what goes on from r.jsonl ends with ${code}: ${err}`];
  const now = scene.contents();
  const both = `${now.get('r.jsonl')}${now.get('rest.jsonl')}`
    .split('\n')
    .filter((text) => text !== '' && !text.startsWith('{"stopped"'));
  const all = whole.get('r.jsonl')!.split('\n').filter(Boolean);
  return both.sort().join('\n') === all.join('\n') ? [] : ['r.jsonl and the rest of it are not the whole'];
}
