/** What is fuzzed: each decoder and each command, by its name; input N is made of its seed alone. */
import { COMMANDS } from '../../cli/commands.js';
import { trialOf } from './commands/entries.js';
import { holdTrial } from './commands/hold-trial.js';
import { shrink } from './commands/shrink.js';
import { contentOf, type Trial } from './commands/trial.js';
import { hold } from './hold.js';
import { type InputKind, inputOf } from './inputs.js';

export interface Failure {
  what: string;
  trial: Trial;
}

/** How one seed ended: a word that counts are kept by, or what must not be. */
export type Ended = { outcome: string } | { failure: Failure };

/** The decoders together, by the name that stands for them. */
export const DECODERS = 'decoders';
const KINDS: readonly string[] = ['dst', 'csv', 'profile'] satisfies InputKind[];

export const TARGETS = [DECODERS, ...Object.keys(COMMANDS)];
export const isTarget = (name: string): boolean => TARGETS.includes(name) || KINDS.includes(name);

const told = (error: unknown): string =>
  error instanceof Error
    ? error.name === 'Error'
      ? error.message
      : (error.stack ?? error.message)
    : String(error);

/** The way it failed, without the figures and names of the case. */
const sameness = (what: string): string =>
  what
    .split('\n', 1)[0]
    .replace(/[\d.]+/g, '0')
    .slice(0, 60);

/** @param onFabric of a decoder, the pucker is worked out as well */
export async function fuzzOnce(target: string, seed: number, onFabric = false): Promise<Ended> {
  if (target in COMMANDS) return fuzzCommand(target, seed);
  const input = inputOf(seed, target === DECODERS ? undefined : (target as InputKind));
  try {
    return { outcome: await hold(input, onFabric) };
  } catch (error) {
    const name = `in.${input.kind === 'profile' ? 'json' : input.kind}`;
    const argv = input.kind === 'profile' ? ['profile', '--profile', name] : ['vet', name];
    return { failure: { what: told(error), trial: { argv, files: { [name]: contentOf(input.bytes) } } } };
  }
}

async function fuzzCommand(command: string, seed: number): Promise<Ended> {
  const trial = trialOf(command, seed);
  try {
    return { outcome: `exit ${(await holdTrial(trial)).code}` };
  } catch (error) {
    const what = told(error);
    const fails = (smaller: Trial): Promise<string | null> =>
      holdTrial(smaller).then(
        () => null,
        (thrown) => sameness(told(thrown)),
      );
    return { failure: { what, trial: await shrink(trial, sameness(what), fails) } };
  }
}
