/** The work on an order: every design ranked, one setup chosen for each fabric, every line worked out on it and its files written. */
import { availableParallelism } from 'node:os';
import { LieflatError } from '../../lib/index.js';
import { readBytes, sha256 } from '../../lib/io/index.js';
import { type OrderFault, type OrderLine, type OrderSetup, sharedSetup } from '../../lib/order/index.js';
import type { FullShop, RankedDesign } from '../../lib/pipeline.js';
import type { WorkedLine } from '../../lib/report/index.js';
import { settingsMark } from '../batch/mark.js';
import type { OrderJobSetup } from '../batch/order-job.js';
import type { Progress } from '../batch/progress.js';
import type { Io } from '../io.js';
import { type AskedOrder, faultOf, madeNames } from './asked-lines.js';
import type { Crew } from './crew.js';
import type { OrderFolder } from './order-folder.js';

/** A line whose file is read, with what is known of its design. */
interface RankedOrderLine extends RankedDesign {
  readonly quantity: number;
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
  const ranked = await rankedLines(work, io);
  const names = madeNames(work.asked.lines);
  const done: DoneWork[] = [];
  await Promise.all(
    [...grouped(ranked)].map(async ([group, lines]) => {
      for (const { line, path, worked } of await groupDone(work, lines, names))
        done.push({ line, path, group, worked });
    }),
  );
  return done.toSorted((a, b) => a.line.line - b.line.line);
}

/** Lines of a fabric share a setup; a backing that was asked for makes a group of its own. */
const groupOf = ({ line: { fabric, stack } }: RankedOrderLine): string => `${fabric} ${stack ?? ''}`;

function grouped(lines: readonly RankedOrderLine[]): Map<string, RankedOrderLine[]> {
  const groups = new Map<string, RankedOrderLine[]>();
  for (const line of lines) groups.set(groupOf(line), [...(groups.get(groupOf(line)) ?? []), line]);
  return groups;
}

async function rankedLines(work: OrderWork, io: Io): Promise<RankedOrderLine[]> {
  const asked: Promise<RankedOrderLine | null>[] = [];
  // One file is read at a time; what is read is worked on meanwhile.
  for (const line of work.asked.lines) {
    const path = work.asked.pathOf(line);
    io.inputs?.push(path);
    const read = await readBytes(path, io).catch(asLieflatError);
    asked.push(read instanceof LieflatError ? cannot(work, line, read) : rankedLine(work, line, path, read));
  }
  return (await Promise.all(asked)).filter((line) => line !== null);
}

async function rankedLine(
  { job, folder, crew, progress, fault }: OrderWork,
  line: OrderLine,
  path: string,
  content: Uint8Array,
): Promise<RankedOrderLine | null> {
  const hash = sha256(content);
  const own = { line, quantity: line.quantity, path, bytes: content.length, sha256: hash };
  const key = settingsMark({ shop: job.figures, hoop: job.hoop, asked: rankOf(line), sha256: hash });
  const known = folder.rank(key);
  if (known) return { ...known, ...own };
  const answer = await crew.ask(path, content.length, { step: 'rank', line });
  if ('error' in answer) {
    await fault(faultOf(line, answer.told), answer.trace);
    await progress.step();
    return null;
  }
  await folder.keepRank(key, answer.ranked!);
  return { ...answer.ranked!, ...own };
}

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
  lines: readonly RankedOrderLine[],
  names: ReturnType<typeof madeNames>,
): Promise<(RankedOrderLine & { worked: WorkedLine })[]> {
  const worked = new Map<string, Promise<WorkedLine | null>>();
  const failed = new Set<number>();
  const keyOf = ({ line, sha256: hash }: RankedOrderLine, setup: OrderSetup): string => {
    const { figures, hoop, units, paper, language } = job;
    const asked = { line, setup, own: names.get(line.line)! };
    return settingsMark({ shop: figures, hoop, units, paper, language, asked, sha256: hash });
  };
  const workOut = async (one: RankedOrderLine, setup: OrderSetup): Promise<WorkedLine | null> => {
    const { line, path, bytes } = one;
    const key = keyOf(one, setup);
    const known = await folder.line(key);
    if (known) return known;
    const { ranked } = one;
    const own = names.get(line.line)!;
    const answer = await crew.ask(path, bytes, { step: 'sew', line, ranked, setup, names: own });
    if ('error' in answer) {
      const fresh = !failed.has(line.line);
      failed.add(line.line);
      if (fresh) await fault(faultOf(line, answer.told), answer.trace);
      return null;
    }
    const { worked: made, files } = answer.sewn!;
    await folder.keepLine(key, made, files);
    return made;
  };
  const once = (one: RankedOrderLine, setup: OrderSetup): Promise<WorkedLine | null> => {
    const key = `${one.line.line} ${setup.stackText}`;
    const known = worked.get(key) ?? workOut(one, setup);
    worked.set(key, known);
    return known;
  };
  const setup = await sharedSetup(
    lines,
    shop.catalogue.needles,
    // What an earlier run found of a setup that it did not take is known without its files.
    async (one, on) => folder.chance(keyOf(one, on)) ?? (await once(one, on))?.chance ?? null,
  );
  const done = await Promise.all(
    lines.map(async (one) => {
      const made = await once(one, setup);
      await progress.step();
      return made && { ...one, worked: made };
    }),
  );
  return done.filter((one) => one !== null);
}
