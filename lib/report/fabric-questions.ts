/** The four questions that lead to a fabric, as people are asked them. */
import { FABRIC_QUESTIONS, type FabricQuestion } from '../materials/fabric-questions.js';
import type { ReportDocument } from './document.js';
import { type Words, wordsFor } from './phrases/words.js';
import { renderText } from './render/text.js';
import type { TextOptions } from './text-options.js';

const IN_ORDER = Object.keys(FABRIC_QUESTIONS) as FabricQuestion[];

/** One question: its sentence, and its answers in order, each with the word that is typed for it. */
export interface AskedQuestion {
  readonly question: FabricQuestion;
  readonly ask: string;
  readonly answers: readonly { readonly word: string; readonly text: string }[];
}

const asked = ({ questions }: Words<'questions'>, question: FabricQuestion): AskedQuestion => {
  const { ask, answers } = questions.each[question];
  return { question, ask, answers: Object.entries<string>(answers).map(([word, text]) => ({ word, text })) };
};

/** What is said beside them. */
export const questionWords = wordsFor({ units: 'mm', detail: 'full' }).questions;

/** The questions in the order in which they are asked. */
export const fabricQuestions = (): AskedQuestion[] => {
  const words = wordsFor({ units: 'mm', detail: 'full' });
  return IN_ORDER.map((question) => asked(words, question));
};

/** All of them at once, with how they are answered. */
export function fabricQuestionsDocument(words: Words<'questions'>): ReportDocument {
  const { questions } = words;
  return {
    title: questions.title,
    language: 'en',
    blocks: [
      { is: 'paragraph', text: [{ text: questions.title, strong: true }] },
      ...IN_ORDER.map((question, i) => {
        const { ask, answers } = asked(words, question);
        const facts = answers.map(({ word, text }) => ({ label: word, text }));
        return { is: 'section', title: `${i + 1}. ${ask}`, blocks: [{ is: 'facts', facts }] } as const;
      }),
      { is: 'paragraph', text: questions.typed },
      { is: 'list', items: [questions.example] },
    ],
  };
}

/** The same as text. */
export const fabricQuestionsToText = (options: TextOptions): string =>
  renderText(fabricQuestionsDocument(wordsFor({ units: options.units, detail: 'full' })), options);

/** The same in one line, for an error: `stretch (none, some, …), thickness (…)`. */
export function fabricQuestionsInLine(): string {
  const { questions } = wordsFor({ units: 'mm', detail: 'full' });
  return IN_ORDER.map(
    (question) => `${questions.each[question].short} (${FABRIC_QUESTIONS[question].join(', ')})`,
  ).join(', ');
}
