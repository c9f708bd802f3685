/** Who works on the designs of an order: threads, each of which keeps what it knows of the designs that it has ranked. */
import type { BatchJob } from '../batch/job.js';
import type { OrderAnswer, OrderAsk } from '../batch/order-ask.js';
import { designKey } from '../batch/order-job.js';
import type { FileFailure } from '../batch/task.js';
import type { Workers } from '../batch/worker-pool.js';
import { threadsOf } from '../batch/worker-pool.js';

/** An answer, or why there is none. */
export type Answered = OrderAnswer | FileFailure;

interface CrewMember {
  readonly workers: Workers;
  /** Work that it has been given, by the size of the files. */
  load: number;
  last: Promise<unknown>;
}

export class Crew {
  private readonly givenTo = new Map<string, CrewMember>();
  private ended = false;

  private constructor(private readonly members: readonly CrewMember[]) {}

  static async of(job: BatchJob, threads: number): Promise<Crew> {
    const all = await threadsOf(job, threads);
    return new Crew(all.map((workers) => ({ workers, load: 0, last: Promise.resolve() })));
  }

  /** Who has ranked a design works it out as well. Rejects only once all have been let go. */
  ask(path: string, bytes: number, order: OrderAsk): Promise<Answered> {
    const key = designKey(path, order.line);
    const member =
      this.givenTo.get(key) ?? this.members.reduce((best, one) => (one.load < best.load ? one : best));
    if (!this.givenTo.has(key)) member.load += bytes;
    this.givenTo.set(key, member);
    const answer = member.last.then(async (): Promise<Answered> => {
      if (this.ended) throw new Error('nobody works on the order any more');
      const outcome = await member.workers.work({ path, number: order.line.line, order });
      return 'error' in outcome ? outcome : outcome.order!;
    });
    member.last = answer.catch(() => undefined);
    return answer;
  }

  /** What is waiting is not begun; what is under way ends first where this thread does it. */
  async end(): Promise<void> {
    this.ended = true;
    await Promise.all(
      this.members.map(async ({ workers, last }) => {
        await workers.end();
        await last;
      }),
    );
  }
}
