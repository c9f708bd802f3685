/**
 * `npm run matrix`: the package as its users get it, under each version of Node that they may have. Every command on the samples has
 * to print and write what the sources do in this process: installed by that version, and installed by another one that has left
 * there what it compiled.
 *
 *     npm run matrix [-- --short]
 */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { COMMANDS } from '../../cli/commands.js';
import { run } from '../../cli/run.js';
import { saidBy } from '../cli/said-by.js';
import { sinkInto } from '../cli/sink.js';
import { commandLines, OTHER_FILES } from './command-lines.js';
import { contentOf, installedBy, type Project } from './installed-by.js';
import { type NodeVersion, nodeVersions } from './node-versions.js';

const ROOT = new URL('../..', import.meta.url).pathname;
const { short } = parseArgs({ options: { short: { type: 'boolean', default: false } } }).values;

/** The oldest that `engines` allows, and the newest of each that is kept up. */
const RANGES = ['20.19.0', '20', '22', '24'];
const TOO_OLD = '12';

interface Outcome {
  code: number;
  out: string;
  err: string;
  files: Map<string, string>;
}

interface Job {
  command: string;
  line: string;
  node: NodeVersion;
  project: Project;
}

const scratch = mkdtempSync(join(tmpdir(), 'matrix-'));
let folders = 0;

/** A folder of the samples alone, for one run. */
function samples(): string {
  const folder = join(scratch, `run-${++folders}`);
  cpSync(join(ROOT, 'samples'), folder, {
    recursive: true,
    filter: (path) => path.endsWith('samples') || /\.(dst|csv)$/.test(path),
  });
  for (const [name, text] of Object.entries(OTHER_FILES)) writeFileSync(join(folder, name), text);
  mkdirSync(join(folder, 'written'));
  return folder;
}

const words = (line: string): string[] => line.split(' ').filter(Boolean);

/** By the sources, in this process: every byte on standard error is one that lieflat means to write. */
async function bySources(line: string): Promise<Outcome> {
  const folder = samples();
  const [out, err]: string[][] = [[], []];
  process.chdir(folder);
  const code = await run(words(line), {
    stdout: sinkInto(out),
    stderr: sinkInto(err),
    stdin: (async function* () {})(),
    cwd: folder,
    env: {},
    isTTY: false,
    columns: undefined,
  });
  process.chdir(ROOT);
  return { code, out: out.join(''), err: err.join(''), files: contentOf(folder) };
}

/** Everything that any of them keeps goes here, so that each finds what the others have left. */
const HOME = join(scratch, 'home');

async function byPackage(line: string, node: NodeVersion, program: string): Promise<Outcome> {
  const folder = samples();
  const child = spawn(node.program, [program, ...words(line)], {
    cwd: folder,
    env: { HOME, XDG_CACHE_HOME: join(HOME, 'cache'), PATH: process.env.PATH },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const { code, ...said } = await saidBy(child);
  return { code: code ?? -1, ...said, files: contentOf(folder) };
}

/** What is not as it should be, a line each. */
function differences(got: Outcome, due: Outcome): string[] {
  const names = new Set([...got.files.keys(), ...due.files.keys()]);
  const files = [...names].filter((name) => got.files.get(name) !== due.files.get(name));
  return [
    ...(got.code === due.code ? [] : [`exit ${got.code}, not ${due.code}`]),
    ...(got.out === due.out ? [] : [`standard output: ${firstDifference(got.out, due.out)}`]),
    ...(got.err === due.err ? [] : [`standard error: ${firstDifference(got.err, due.err)}`]),
    ...files.map((name) => `file ${name}`),
  ];
}

function firstDifference(got: string, due: string): string {
  const [left, right] = [got.split('\n'), due.split('\n')];
  const at = left.findIndex((line, i) => line !== right[i]);
  return `line ${at + 1} is ${JSON.stringify(left[at]?.slice(0, 100))}, not ${JSON.stringify(right[at]?.slice(0, 100))}`;
}

/** Bytes of the lines on standard error that lieflat does not write there. */
function foreignBytes(got: Outcome, due: Outcome): number {
  const own = new Set(due.err.split('\n'));
  const foreign = got.err.split('\n').filter((line) => !own.has(line));
  return Buffer.byteLength(foreign.join('\n'));
}

/** Each in turn by as many hands as there are processors. */
async function allOf<T>(tasks: readonly T[], work: (task: T) => Promise<void>): Promise<void> {
  const queue = tasks.values();
  const hand = async (): Promise<void> => {
    for (const task of queue) await work(task);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, hand));
}

async function matrix(): Promise<boolean> {
  const lines = commandLines(Object.keys(COMMANDS), short);
  const [tooOld, ...nodes] = nodeVersions(join(ROOT, '.cache/nodes'), [TOO_OLD, ...RANGES]);
  mkdirSync(HOME);
  const builders = short ? nodes.slice(0, 1) : nodes;
  const projects = builders.map((node) => installedBy(node, join(scratch, `by-${node.version}`)));

  const found: string[] = [];
  for (const { builtBy, files } of projects)
    for (const [name, sum] of projects[0].files)
      if (files.get(name) !== sum || files.size !== projects[0].files.size)
        found.push(`${name} is not the same where Node ${builtBy.version} built it`);

  const due = new Map<string, Outcome>();
  for (const line of [...lines.values()].flat()) due.set(line, await bySources(line));

  const bad = new Map<string, number>();
  let [runs, foreign] = [0, 0];
  const hold = async ({ command, line, node, project }: Job): Promise<void> => {
    const got = await byPackage(line, node, project.program);
    runs++;
    foreign += foreignBytes(got, due.get(line)!);
    const wrong = differences(got, due.get(line)!);
    found.push(
      ...wrong.map(
        (what) => `Node ${node.version}, built by ${project.builtBy.version}: lieflat ${line}: ${what}`,
      ),
    );
    const cell = `${command} ${node.version}`;
    bad.set(cell, (bad.get(cell) ?? 0) + wrong.length);
  };
  const jobs = (builderOf: (n: number) => Project): Job[] =>
    nodes.flatMap((node, n) =>
      [...lines].flatMap(([command, own]) =>
        own.map((line) => ({ command, line, node, project: builderOf(n) })),
      ),
    );
  await allOf(
    jobs((n) => projects[n % projects.length]),
    hold,
  );
  // By now the other version has left there what it compiled.
  if (!short)
    await allOf(
      jobs((n) => projects[(n + 1) % projects.length]),
      hold,
    );

  const refused = await byPackage('--version', tooOld, projects[0].program);
  if (
    refused.code !== 2 ||
    refused.out !== '' ||
    !/^lieflat: Node\.js 12\S+ is too old [^\n]+\n$/.test(refused.err)
  )
    found.push(`Node ${tooOld.version} is not refused in one line: ${refused.err.slice(0, 300)}`);

  const row = (name: string, cells: readonly string[]): string =>
    name.padEnd(10) + cells.map((cell) => cell.padStart(11)).join('');
  console.log(
    row(
      '',
      nodes.map(({ version }) => version),
    ),
  );
  for (const command of lines.keys()) {
    const cells = nodes.map(({ version }) => bad.get(`${command} ${version}`));
    console.log(
      row(
        command,
        cells.map((count) => (count === 0 ? 'same' : `${count} differ`)),
      ),
    );
  }
  for (const line of found) console.log(line);
  console.log(
    `${nodes.length} versions of Node, ${lines.size - 1} commands, ${projects.length} builders, ${runs} runs: ${found.length} differences, ${foreign} foreign bytes on standard error`,
  );
  return found.length === 0 && foreign === 0;
}

try {
  process.exitCode = (await matrix()) ? 0 : 1;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
