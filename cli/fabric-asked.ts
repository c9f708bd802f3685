/** `--fabric` where it is a question or a name that nobody knows: four questions lead to a fabric. */
import { LieflatError, printable } from '../lib/index.js';
import type { Catalogue } from '../lib/materials/index.js';
import type { AskedQuestion } from '../lib/report/index.js';
import { badArgument } from './bad-argument.js';
import { type Io, print, printWidth } from './io.js';
import type { Beforehand } from './options.js';
import { profileQuietly } from './settings.js';

const materials = () => import('../lib/materials/index.js');
const report = () => import('../lib/report/index.js');

/** `--fabric ask`, and the same with the answers: `ask=some,medium,plain,washable`. */
const ASK = /^\s*ask\s*(?:[=:](.*))?$/is;

/**
 * The fabric that is meant by what `--fabric` says: itself, where it is known. Else, and where it says `ask`, a person at a terminal is asked four
 * questions and told which fabric they led to.
 *
 * @throws LieflatError `bad-argument` where nobody can be asked, or the answers that were typed are none; `unknown-id` for a name that is not known
 */
export async function fabricMeant(args: Beforehand, io: Io): Promise<string | undefined> {
  const { fabric: typed } = args;
  if (typed === undefined) return undefined;
  const asks = ASK.exec(typed);
  if (asks?.[1] !== undefined) return answered(asks[1], io);
  if (!asks && (await isKnown(typed, args, io))) return typed;
  if (io.ask === undefined) return refuse(asks ? null : typed, args, io);
  if (!asks) {
    const { questionWords } = await report();
    const akin = await akinTo(typed, args, io);
    await print(io.stderr, `${printable(questionWords.unknown({ typed: printable(typed), akin }))}\n`);
  }
  return led(await askAll(io.ask, io), io);
}

async function isKnown(typed: string, args: Beforehand, io: Io): Promise<boolean> {
  const { CATALOGUE, isFabricNamed } = await materials();
  return isFabricNamed(CATALOGUE, typed) || isFabricNamed(await ownCatalogue(args, io), typed);
}

/** Garments that share a word with a name that nobody knows. */
async function akinTo(typed: string, args: Beforehand, io: Io): Promise<string[]> {
  const { garmentsAkin } = await materials();
  return garmentsAkin(typed, (await ownCatalogue(args, io)).garments);
}

async function ownCatalogue(args: Beforehand, io: Io): Promise<Catalogue> {
  return (await profileQuietly(args, io)).figures.catalogue ?? (await materials()).CATALOGUE;
}

/** Nobody is there to answer. */
async function refuse(typed: string | null, args: Beforehand, io: Io): Promise<never> {
  const { fabricQuestionsInLine, fabricQuestionsToText } = await report();
  const todo = `answer four questions, as --fabric ask=some,medium,plain,washable: ${fabricQuestionsInLine()}`;
  if (typed === null) {
    // A program that waits for a report gets none.
    if ((args.format ?? 'text') === 'text')
      await print(io.stdout, fabricQuestionsToText({ width: printWidth(io), units: 'mm' }));
    throw badArgument('--fabric ask needs somebody to answer, and there is no terminal', todo);
  }
  const akin = await akinTo(typed, args, io);
  throw new LieflatError({
    code: 'unknown-id',
    place: `fabric "${typed}"`,
    what: akin.length > 0 ? 'that may be several garments' : 'no fabric or garment is called that',
    todo:
      akin.length > 0
        ? `say which (${akin.join(', ')}); if it is none of them, ${todo}`
        : `say it in everyday words, as hoodie or towel, or ${todo}`,
  });
}

async function answered(text: string, io: Io): Promise<string> {
  const [{ answersIn, fabricFor }, { fabricQuestionsInLine }] = await Promise.all([materials(), report()]);
  const answers = answersIn(text);
  if (answers === null)
    throw badArgument(
      `--fabric ask= cannot be answered with ${text.trim() || 'nothing'}`,
      `give one word each of ${fabricQuestionsInLine()}`,
    );
  return led(fabricFor(answers), io);
}

/** Says where the answers led. */
async function led(fabric: string, io: Io): Promise<string> {
  const [{ CATALOGUE }, { questionWords }] = await Promise.all([materials(), report()]);
  await print(io.stderr, `${questionWords.ledTo({ fabric, name: CATALOGUE.fabrics[fabric].name })}\n`);
  return fabric;
}

async function askAll(ask: NonNullable<Io['ask']>, io: Io): Promise<string> {
  const [{ answersIn, fabricFor }, { fabricQuestions }] = await Promise.all([materials(), report()]);
  const said: string[] = [];
  for (const [i, question] of fabricQuestions().entries()) said.push(await askOne(question, i + 1, ask, io));
  return fabricFor(answersIn(said.join(','))!);
}

/** Asked again until there is an answer: its number, its word, or the start of no other word. */
async function askOne(
  { ask: sentence, answers }: AskedQuestion,
  number: number,
  ask: NonNullable<Io['ask']>,
  io: Io,
): Promise<string> {
  const { questionWords } = await report();
  const lines = answers.map(({ word, text }, i) => `   ${i + 1}  ${word}: ${text}`);
  await print(io.stderr, `${number}. ${sentence}\n${lines.join('\n')}\n`);
  for (;;) {
    const line = await ask(`   ${questionWords.answer}: `);
    if (line === null)
      throw badArgument('the questions about the fabric were not answered', 'name it with --fabric');
    const typed = line.trim().toLowerCase();
    const begun = answers.filter(({ word }) => typed !== '' && word.startsWith(typed));
    const found = answers[Number(typed) - 1] ?? (begun.length === 1 ? begun[0] : undefined);
    if (found) return found.word;
    await print(io.stderr, `   ${questionWords.again({ answers: answers.map(({ word }) => word) })}\n`);
  }
}
