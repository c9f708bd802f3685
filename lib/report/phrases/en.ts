/** English: what every other language is held to. An area a report, and what several share. */
import { advice } from './en/advice.js';
import { batch } from './en/batch.js';
import { calibrate } from './en/calibrate.js';
import { card } from './en/card.js';
import { catalog } from './en/catalog.js';
import { columns } from './en/columns.js';
import { common } from './en/common.js';
import { compare } from './en/compare.js';
import { findings } from './en/findings.js';
import { order } from './en/order.js';
import { page } from './en/page.js';
import { picture } from './en/picture.js';
import { profile } from './en/profile.js';
import { proof } from './en/proof.js';
import { pucker } from './en/pucker.js';
import { questions } from './en/questions.js';
import { relay } from './en/relay.js';
import { reply } from './en/reply.js';
import { resew } from './en/resew.js';
import { rework } from './en/rework.js';
import { risk } from './en/risk.js';
import { setup } from './en/setup.js';
import { vet } from './en/vet.js';

export const EN = {
  advice,
  batch,
  calibrate,
  card,
  catalog,
  columns,
  common,
  compare,
  findings,
  order,
  page,
  picture,
  profile,
  proof,
  pucker,
  questions,
  relay,
  reply,
  resew,
  rework,
  risk,
  setup,
  vet,
};
