import { type WritingLine, wordsOf } from '../cli/writing-lines.js';
import { Random } from '../generators/random.js';
import { type Held, holdKill, type Kill } from './hold-kill.js';
import type { Signal } from './process.js';
import { Scene, TEMPORARY, type Undisturbed } from './scene.js';

export interface Asked {
  /** What Node runs. */
  program: string;
  /** How often each signal is sent. */
  counts: Readonly<Record<Signal, number>>;
  seed: number;
  /** That a batch works through. */
  designs: number;
  lines?: readonly WritingLine[];
  /** Told of each. */
  tell?: (kill: Kill, held: Held) => void;
}

/** What came of all of them. */
export interface Tally {
  runs: number;
  ends: Record<Held['end'], number>;
  leftTemporary: number;
  lost: number;
  falselyWhole: number;
  temporaries: number;
  other: number;
}

/** Disturbs command lines that write, each in turn, at moments that a seed draws. */
export async function killAll(asked: Asked): Promise<Tally> {
  const scene = new Scene(asked.program, asked.designs);
  try {
    const usual = await scene.measure(asked.lines);
    const tally: Tally = {
      runs: 0,
      ends: { killed: 0, stopped: 0, finished: 0 },
      leftTemporary: 0,
      lost: 0,
      falselyWhole: 0,
      temporaries: 0,
      other: 0,
    };
    for (const [signal, count] of Object.entries(asked.counts) as [Signal, number][]) {
      const random = new Random(asked.seed, signal);
      for (let n = 0; n < count; n++) {
        const kill = killOf(usual[n % usual.length], signal, random);
        const held = await holdKill(scene, kill);
        tally.runs++;
        tally.ends[held.end]++;
        if (held.leftTemporary) tally.leftTemporary++;
        for (const sort of ['lost', 'falselyWhole', 'temporaries', 'other'] as const)
          tally[sort] += held[sort].length;
        asked.tell?.(kill, held);
      }
    }
    return tally;
  } finally {
    scene.remove();
  }
}

/** A third of them at any moment of the run, a third towards its end, a third from when a file is begun. */
function killOf(usual: Undisturbed, signal: Signal, random: Random): Kill {
  const { ms } = usual;
  const there = random.chance(0.5);
  const [kind, share] = [random.int(0, 2), random.next()];
  const moment = [
    { afterMs: share * ms },
    { afterMs: (0.7 + 0.4 * share) * ms },
    // Small files are in place a few milliseconds after they are begun; that of a batch is begun with it.
    { afterMs: random.chance(0.5) ? 0 : share ** 3 * ms, once: TEMPORARY },
  ][kind];
  return { usual, signal, moment, there };
}

/** What a disturbance did, in a line. */
export const lineOf = ({ usual: { line }, signal, moment, there }: Kill): string =>
  `${signal} ${moment.afterMs.toFixed(0)} ms after ${moment.once ? 'a file was begun' : 'the start'}: ${wordsOf(line, there).join(' ')}`;

/** All that is wrong with one. */
export const wrongOf = ({ lost, falselyWhole, temporaries, other }: Held): string[] => [
  ...lost.map((name) => `the old ${name} is lost`),
  ...falselyWhole.map((name) => `${name} claims to be whole and is not`),
  ...temporaries.map((name) => `${name} is there after the next run`),
  ...other,
];
