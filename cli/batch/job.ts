import { errorParts, lineOfParts, traceOf } from '../error-lines.js';
import type { AdviseSetup } from './advise-job.js';
import type { CardSetup } from './card-job.js';
import type { ColumnsSetup } from './columns-job.js';
import type { OrderJobSetup } from './order-job.js';
import type { RelaySetup } from './relay-job.js';
import type { ResewSetup } from './resew-job.js';
import type { FileDone, FileFailure, FileOutcome, Task } from './task.js';
import { type VetSetup, vetWork } from './vet-job.js';

/** What the work of each command on a file goes by; plain data. */
interface Setups {
  vet: VetSetup;
  columns: ColumnsSetup;
  advise: AdviseSetup;
  card: CardSetup;
  order: OrderJobSetup;
  relay: RelaySetup;
  resew: ResewSetup;
}

/** What to do with every file. */
export type BatchJob = { [N in keyof Setups]: { name: N; setup: Setups[N] } }[keyof Setups] & {
  /** Say where in the program an error came from. */
  debug: boolean;
};

type Work = (task: Task) => Promise<FileDone>;

/** Loaded only where it is called for. */
const WORKS: { [N in keyof Setups]: (setup: Setups[N]) => Promise<Work> } = {
  vet: vetWork,
  columns: async (setup) => (await import('./columns-job.js')).columnsWork(setup),
  advise: async (setup) => (await import('./advise-job.js')).adviseWork(setup),
  card: async (setup) => (await import('./card-job.js')).cardWork(setup),
  order: async (setup) => (await import('./order-job.js')).orderWork(setup),
  relay: async (setup) => (await import('./relay-job.js')).relayWork(setup),
  resew: async (setup) => (await import('./resew-job.js')).resewWork(setup),
};

/** Makes ready for the work, which throws what is wrong with a file. */
export const workAlone = ({ name, setup }: BatchJob): Promise<Work> =>
  (WORKS[name] as (setup: BatchJob['setup']) => Promise<Work>)(setup);

/** The same for a batch; an error of one file becomes its outcome, so that the others go on. */
export async function workOf(job: BatchJob): Promise<(task: Task) => Promise<FileOutcome>> {
  const work = await workAlone(job);
  return (task) => work(task).catch((error) => failure(error, task.path, job.debug));
}

/** An error as the outcome of a file. */
export function failure(error: unknown, path: string, debug: boolean): FileFailure {
  const told = errorParts(error, path);
  const trace = debug ? traceOf(error) : '';
  return { path, error: lineOfParts(told) + trace, told, trace };
}
