/**
 * Kills and stops every command that writes, as users have it, at random moments: the old file is whole then, or the new one is, and the
 * next run leaves nothing of the disturbed one.
 *
 *     npm run kills [-- --kills 112 --interrupts 60 --terms 60 --seed 1]
 */
import { parseArgs } from 'node:util';
import { killAll, lineOf, wrongOf } from './kills.js';

/** So many that a batch takes about a second. */
const DESIGNS = 120;

const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '112' },
    interrupts: { type: 'string', default: '60' },
    terms: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
  },
});
const [kills, interrupts, terms, seed] = [values.kills, values.interrupts, values.terms, values.seed].map(
  (text) => {
    if (!/^\d+$/.test(text)) throw new Error(`${text} is no whole number`);
    return Number(text);
  },
);

const tally = await killAll({
  program: new URL('../../.build/cli/main.js', import.meta.url).pathname,
  counts: { SIGKILL: kills, SIGINT: interrupts, SIGTERM: terms },
  seed,
  designs: DESIGNS,
  tell: (kill, held) => {
    for (const what of wrongOf(held)) console.log(`${lineOf(kill)}: ${what}`);
  },
});
const { runs, ends, leftTemporary, lost, falselyWhole, temporaries, other } = tally;
console.log(
  `${kills} kills, ${interrupts} interrupts, ${terms} terminations: ${ends.killed} ended by it, ${ends.stopped} stopped in order, ${ends.finished} had finished; ${leftTemporary} of ${runs} left a temporary file`,
);
console.log(
  `${lost} old files lost, ${falselyWhole} new files that claim to be whole and are not, ${temporaries} temporary files left after the next run, ${other} other faults`,
);
process.exitCode = lost + falselyWhole + temporaries + other === 0 ? 0 : 1;
