import { describe, expect, it } from 'vitest';
import { builtProgram } from '../built.js';
import { WRITING_LINES } from '../cli/writing-lines.js';
import { killAll, lineOf, wrongOf } from './kills.js';

describe('a command that is killed or stopped while it writes', () => {
  // A stretch of what `npm run kills` does.
  it('leaves old files whole or new ones, and nothing after the next run', async () => {
    const wrong: string[] = [];
    const tally = await killAll({
      program: builtProgram(),
      counts: { SIGKILL: 2, SIGINT: 1, SIGTERM: 1 },
      // Two of these are sent as soon as a file is begun.
      seed: 6,
      designs: 8,
      lines: WRITING_LINES.filter(({ writes }) => writes.out === 'r.jsonl' || writes.out === 'a.svg'),
      tell: (kill, held) => {
        for (const what of wrongOf(held)) wrong.push(`${lineOf(kill)}: ${what}`);
      },
    });
    expect(wrong).toEqual([]);
    expect(tally.runs).toBe(4);
    expect(tally.ends.killed + tally.ends.stopped).toBeGreaterThan(0);
  });
});
