/** Why a part of a design was left as it is when the file was rewritten: clauses that follow the object and a colon. */
import type { LeftPart } from '../../../rework/enlargement.js';
import type { ProofFault } from '../../../rework/proof.js';
import type { NotCompensated } from '../../../rework/proven-compensation.js';
import type { LeftBecause } from '../../../rework/relay.js';
import type { LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { Voice } from '../voice.js';
import { setup } from './setup.js';
import { keptUnderlay } from './underlay.js';

const fault: Readonly<Record<ProofFault, string>> = {
  changed: 'its top stitching would change',
  shows: 'new thread would show beside its top stitching',
  bare: 'fabric would show that its thread covers now',
  'second-layer': 'what lies under it looks like a layer of its top stitching, not like underlay',
  cloth: 'what lies under it may hold an appliqué: a line beneath it marks where',
  machine: 'its trims, stops or color changes would change',
};

/** `to` with its article. */
const notRelaid: Readonly<Record<LeftBecause, (to: string) => string>> = {
  'no-room': (to) => `too narrow or too short for ${to}`,
  shows: (to) => `${to} would show at its edges`,
  float: (to) => `the thread would need too long a stitch to get to ${to}`,
  'stitch-length': (to) => `${to} would need stitches here that are too short or too long`,
  underlay: (to) => `${to} here could be mistaken for something else when the file is read again`,
  locks: () => 'its thread would lose its tie-in or tie-off',
  objects: () => 'it is sewn too close to its neighbor, which would change too',
  'no-satin': () => 'it is not a satin column',
};

const notCompensated: Readonly<Record<Exclude<NotCompensated, null>, string>> = {
  ...fault,
  unsure: 'it may be something else than it looks like; --objects names it all the same',
  piece: 'its stitches hold an appliqué',
  foam: 'the foam beneath it decides how wide it comes out',
  passes: 'it is sewn over more than once',
  'too-far': 'it draws in by more than this can make up for: change the backing or the underlay',
  changed: 'its stitches would look like something else',
};

const notGrown: Readonly<Record<LeftPart['because'], string>> = {
  ...fault,
  'no-rule': 'its stitches follow no pattern that can be sewn again',
  run: 'a run has no width: it keeps its path, with the needle between its old holes',
  'few-rows': 'too few of its rows lie straight beside each other',
};

export const rework = {
  fault,
  notRelaid: ({ because, to }: { because: LeftBecause; to: LaidUnderlay | 'keep' }, _: Voice): string =>
    notRelaid[because](to === 'keep' ? '' : setup.laid[to]),
  kept: keptUnderlay,
  notCompensated,
  notGrown,
};
