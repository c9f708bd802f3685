/** The work on an order: every design looked up and ranked, one setup chosen for each fabric, every line worked out on it and its files written. */
import { availableParallelism } from 'node:os';
import type { RankedPlan } from '../../lib/advice/index.js';
import { LieflatError } from '../../lib/index.js';
import { readBytes, sha256 } from '../../lib/io/index.js';
import { type OrderFault, type OrderLine, type OrderSetup, sharedSetup } from '../../lib/order/index.js';
import type { FullShop, OfferedDesign } from '../../lib/pipeline.js';
import type { WorkedLine } from '../../lib/report/index.js';
import { settingsMark } from '../batch/mark.js';
import type { OrderJobSetup } from '../batch/order-job.js';
import type { Progress } from '../batch/progress.js';
import type { FileFailure } from '../batch/task.js';
import type { Io } from '../io.js';
import { type AskedOrder, faultOf, madeNames } from './asked-lines.js';
import type { Crew } from './crew.js';
import type { KnownDesign, OrderFolder } from './order-folder.js';

/** A line whose file is read, with what is known of its design. */
interface ReadOrderLine extends OfferedDesign {
  readonly quantity: number;
  /** How its design ranks on the stacks that were looked at: lines of one design share it. */
  readonly ranked: Map<string, readonly RankedPlan[]>;
  /** Of what is known of the design. */
  readonly key: string;
  readonly line: OrderLine;
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** A line that is done, and the group that shares its setup. */
export interface DoneWork {
  readonly line: OrderLine;
  readonly path: string;
  readonly group: string;
  readonly worked: WorkedLine;
}

export interface OrderWork {
  readonly shop: FullShop;
  readonly job: OrderJobSetup;
  readonly asked: AskedOrder;
  readonly folder: OrderFolder;
  readonly crew: Crew;
  readonly progress: Progress;
  /** Tells of a line that cannot be done, and where in the program that came from where anybody asks. */
  readonly fault: (fault: OrderFault, trace?: string) => Promise<void>;
}

/** Threads for an order where nobody says: a design that is ranked is worth one. */
export const threadsFor = (lines: number): number =>
  lines < 3 ? 1 : Math.min(lines, availableParallelism());

/** Lines that are done, in their order; of the others `fault` is told. */
export async function workedOrder(work: OrderWork, io: Io): Promise<DoneWork[]> {
  const read = await readLines(work, io);
  const names = madeNames(work.asked.lines);
  const done: DoneWork[] = [];
  await Promise.all(
    [...grouped(read)].map(async ([group, lines]) => {
      for (const { line, path, worked } of await groupDone(work, lines, names))
        done.push({ line, path, group, worked });
    }),
  );
  return done.toSorted((a, b) => a.line.line - b.line.line);
}

/** Lines of a fabric share a setup; a backing that was asked for makes a group of its own. */
const groupOf = ({ line: { fabric, stack } }: ReadOrderLine): string => `${fabric} ${stack ?? ''}`;

function grouped(lines: readonly ReadOrderLine[]): Map<string, ReadOrderLine[]> {
  const groups = new Map<string, ReadOrderLine[]>();
  for (const line of lines) groups.set(groupOf(line), [...(groups.get(groupOf(line)) ?? []), line]);
  return groups;
}

async function readLines(work: OrderWork, io: Io): Promise<ReadOrderLine[]> {
  const read: { line: OrderLine; path: string; content: Uint8Array }[] = [];
  const asked: Promise<ReadOrderLine | null>[] = [];
  for (const line of work.asked.lines) {
    const path = work.asked.pathOf(line);
    io.inputs?.push(path);
    const content = await readBytes(path, io).catch(asLieflatError);
    if (content instanceof LieflatError) asked.push(cannot(work, line, content));
    else read.push({ line, path, content });
  }
  // Threads are dealt the longest designs first, so that none is left with one in the end.
  const ranked = new Map<string, ReadOrderLine['ranked']>();
  for (const { line, path, content } of read.toSorted((a, b) => b.content.length - a.content.length))
    asked.push(offeredLine(work, line, path, content, ranked));
  const lines = (await Promise.all(asked)).filter((line) => line !== null);
  return lines.toSorted((a, b) => a.line.line - b.line.line);
}

async function offeredLine(
  { job, folder, crew, progress, fault }: OrderWork,
  line: OrderLine,
  path: string,
  content: Uint8Array,
  allRanked: Map<string, ReadOrderLine['ranked']>,
): Promise<ReadOrderLine | null> {
  const hash = sha256(content);
  const key = settingsMark({ shop: job.figures, hoop: job.hoop, offered: rankOf(line), sha256: hash });
  const known = folder.rank(key);
  const ranked = allRanked.get(key) ?? new Map(Object.entries(known?.ranked ?? {}));
  allRanked.set(key, ranked);
  const own = { line, quantity: line.quantity, path, bytes: content.length, sha256: hash, ranked, key };
  if (known) return { ...known, ...own };
  const answer = await crew.ask(path, content.length, { step: 'offer', line });
  if ('error' in answer) {
    await fault(faultOf(line, answer.told), answer.trace);
    await progress.step();
    return null;
  }
  await folder.keepRank(key, { ...answer.offered!, ranked: {} });
  return { ...answer.offered!, ...own };
}

/** What is known of a line's design by now. */
const knownOf = ({ offers, topping, needle, speedSpm, ranked }: ReadOrderLine): KnownDesign => ({
  ...{ offers, topping, needle, speedSpm },
  ranked: Object.fromEntries(ranked),
});

async function cannot({ fault, progress }: OrderWork, line: OrderLine, error: LieflatError): Promise<null> {
  await fault(faultOf(line, error));
  await progress.step();
  return null;
}

function asLieflatError(error: unknown): LieflatError {
  if (error instanceof LieflatError) return error;
  throw error;
}

/** What of a line decides how its design ranks. */
const rankOf = ({ garment, stack, place }: OrderLine) => ({ garment, stack, place });

async function groupDone(
  { shop, job, folder, crew, progress, fault }: OrderWork,
  lines: readonly ReadOrderLine[],
  names: ReturnType<typeof madeNames>,
): Promise<(ReadOrderLine & { worked: WorkedLine })[]> {
  const worked = new Map<string, Promise<WorkedLine | null>>();
  const failed = new Set<number>();
  const keyOf = ({ line, sha256: hash }: ReadOrderLine, setup: OrderSetup): string => {
    const { figures, hoop, units, paper, language } = job;
    const asked = { line, setup, own: names.get(line.line)! };
    return settingsMark({ shop: figures, hoop, units, paper, language, asked, sha256: hash });
  };
  const failing = async ({ line }: ReadOrderLine, { told, trace }: FileFailure): Promise<null> => {
    const fresh = !failed.has(line.line);
    failed.add(line.line);
    if (fresh) await fault(faultOf(line, told), trace);
    return null;
  };
  const plansOn = async (one: ReadOrderLine, stack: string): Promise<readonly RankedPlan[] | null> => {
    const { line, path, bytes, ranked, key } = one;
    const known = ranked.get(stack);
    if (known) return known;
    const answer = await crew.ask(path, bytes, { step: 'rank', line, stack, ranked });
    if ('error' in answer) return failing(one, answer);
    ranked.set(stack, answer.ranked!);
    await folder.keepRank(key, knownOf(one));
    return answer.ranked!;
  };
  const workOut = async (one: ReadOrderLine, setup: OrderSetup): Promise<WorkedLine | null> => {
    const { line, path, bytes, ranked } = one;
    const key = keyOf(one, setup);
    const known = await folder.line(key);
    if (known) return known;
    const own = names.get(line.line)!;
    const answer = await crew.ask(path, bytes, { step: 'sew', line, ranked, setup, names: own });
    if ('error' in answer) return failing(one, answer);
    const { worked: made, files } = answer.sewn!;
    await folder.keepLine(key, made, files);
    return made;
  };
  const once = (one: ReadOrderLine, setup: OrderSetup): Promise<WorkedLine | null> => {
    const key = `${one.line.line} ${setup.stackText}`;
    const known = worked.get(key) ?? workOut(one, setup);
    worked.set(key, known);
    return known;
  };
  const setup = await sharedSetup(lines, shop.catalogue.needles, {
    plansOn,
    // What an earlier run found of a setup that it did not take is known without its files.
    chanceOf: async (one, on) => folder.chance(keyOf(one, on)) ?? (await once(one, on))?.chance ?? null,
  });
  const done = await Promise.all(
    lines.map(async (one) => {
      const made = await once(one, setup);
      await progress.step();
      return made && { ...one, worked: made };
    }),
  );
  return done.filter((one) => one !== null);
}
