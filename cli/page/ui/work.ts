/** Work under way: a bar that says what is done, how far it is, and stops it; what a command has to say in plain words. */
import { JobEnded } from '../engine.js';
import type { Engine, PageJob, PageResult } from '../protocol.js';
import { button, make } from './elements.js';
import type { PageWords } from './words.js';

export interface WorkBar {
  readonly bar: HTMLElement;
  /**
   * Does a job. What stands in its way is said in `trouble`.
   *
   * @returns what came of it, with whatever else was said; null where there is nothing
   */
  run(job: PageJob, said: string, trouble: HTMLElement): Promise<(PageResult & { notes: string }) | null>;
  /** Tells those who cannot see it. */
  say(text: string): void;
}

export function workBar(engine: Engine, words: PageWords): WorkBar {
  const { page } = words;
  const note = make('span', { class: 'work-note' });
  const share = make('progress', { 'aria-label': page.work.title });
  const stop = button(page.work.stop, () => engine.stop(), { class: 'quiet-button' });
  const shown = make('div', { class: 'work-shown', hidden: true }, note, share, stop);
  const status = make('p', { role: 'status', class: 'unseen' });
  const bar = make('aside', { 'aria-label': page.work.title, class: 'work' }, shown, status);
  let underWay = 0;

  const say = (text: string): void => {
    status.textContent = text;
  };

  return {
    bar,
    say,
    async run(job, said, trouble) {
      underWay++;
      trouble.textContent = '';
      note.textContent = said;
      share.removeAttribute('value');
      shown.hidden = false;
      say(said);
      try {
        const result = await engine.run(job, (_, done) => {
          note.textContent = said;
          if (done !== null) share.value = done;
        });
        const notes = plainLines(result.stderr, words);
        if (result.exit < 2 || result.files.length > 0) return { ...result, notes };
        trouble.textContent = notes;
        return null;
      } catch (error) {
        if (!(error instanceof JobEnded)) throw error;
        trouble.textContent = error.stopped ? page.work.stopped : error.message;
        return null;
      } finally {
        underWay--;
        shown.hidden = underWay === 0;
      }
    },
  };
}

/** What a command says on standard error, with its options by the names of the fields. */
export function plainLines(text: string, { page }: PageWords): string {
  const labels: Readonly<Record<string, string>> = page.field;
  return text
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('wrote '))
    .map((line) =>
      line
        .replace(/^lieflat: (command line: )?/, '')
        .replace(/--([a-z-]+)/g, (option, name: string) => labels[name] ?? option),
    )
    .join(' ');
}
