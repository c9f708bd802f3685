/** What to hand out: the new file, the card, the letter, the proof, the reports. Each is made when it is asked for. */
import { type AdviseReport, relayInPage } from '../../../lib/report/index.js';
import type { PageFile, PageJob } from '../protocol.js';
import { bare, type Desk, stemOf } from './desk.js';
import { button, make, part, troubleLine } from './elements.js';
import type { JobPart } from './job-part.js';
import { handOver, picture, reportNodes } from './show.js';

export interface OutPart {
  readonly section: HTMLElement;
  /** Begins anew: for another file, another plan, or none. */
  show(plan: AdviseReport | null): void;
}

/** One thing to hand out: its own place for what is made and for what went wrong. */
interface Item {
  readonly article: HTMLElement;
  readonly use: HTMLElement;
  readonly buttons: HTMLElement;
  readonly trouble: HTMLElement;
  readonly body: HTMLElement;
  readonly files: HTMLElement;
}

/** @param relaid called with a new stitch file */
export function outPart(desk: Desk, job: JobPart, relaid: (file: PageFile) => void): OutPart {
  const { out: says, work: doing } = desk.words.page;
  const section = part('out', says.title);
  let plan: AdviseReport | null = null;

  const item = (id: string, title: string): Item => {
    const use = make('p', { class: 'quiet' });
    const buttons = make('p', { class: 'choices' });
    const trouble = troubleLine();
    const body = make('div');
    const files = make('ul', { class: 'files' });
    const heading = make('h3', {}, title);
    const article = make('div', { class: 'item', id }, heading, use, buttons, trouble, body, files);
    section.append(article);
    return { article, use, buttons, trouble, body, files };
  };
  const items = {
    relay: item('out-relay', says.relaid),
    card: item('out-card', says.card),
    reply: item('out-reply', says.reply),
    proof: item('out-proof', says.proof),
    report: item('out-report', says.report),
  };

  /** Does a job about the file that is looked at; null where it is another by then. */
  async function made(of: Item, asked: Omit<PageJob, 'words'>, file: string, said: string) {
    const { file: looked } = desk;
    const done = await desk.work.run({ ...asked, words: [file] }, said, of.trouble);
    return looked === desk.file ? done : null;
  }

  /** Makes a file and hands it over. */
  async function handOut(of: Item, command: string, options: Record<string, string>, file: string) {
    const { out } = options;
    const done = await made(
      of,
      { command, options: { ...options, units: desk.units } },
      file,
      doing.making({ file: out }),
    );
    if (done === null) return;
    for (const one of done.files.filter(({ name }) => name === out)) handOver(desk, of.files, one);
    of.trouble.textContent = of === items.proof ? noteOn(done) : done.notes;
  }

  const sized = () => job.options('place', 'hoop');
  const colors = () => job.options('threads', 'garment-color');
  const fabric = () => (plan ? job.options('fabric') : {});
  /** The file that will be sewn. */
  const sewn = () => desk.relaid ?? desk.file!;
  const named = (ending: string) => `${stemOf(desk.file!)}-${ending}`;

  /** Files that were made here and given back to be worked on: made again, they are replaced; what a person dropped is not. */
  const ours = new Set<string>();

  async function relay(): Promise<void> {
    const { file } = desk;
    const asked = plan && plan.recommended.underlay.length > 0 ? plan.recommended.underlay : null;
    const out = named('relaid.dst');
    const options = {
      ...sized(),
      ...fabric(),
      ...(plan && { stack: plan.recommended.stackText }),
      ...(asked && { objects: asked.map(({ object }) => object).join(','), to: asked[0].to }),
      ...{ out, format: 'json', ...(ours.has(out) && { force: true as const }) },
    };
    const done = await made(items.relay, { command: 'relay', options }, file!, doing.making({ file: out }));
    if (done === null) return;
    items.relay.body.replaceChildren(reportNodes(relayInPage(JSON.parse(done.stdout), desk.units)));
    const [written] = done.files;
    if (written === undefined) {
      items.relay.trouble.textContent = says.noFile;
      return;
    }
    handOver(desk, items.relay.files, written);
    relaid(written);
    ours.add(written.name);
    desk.relaid = written.name;
    tell();
  }

  const card = () =>
    handOut(
      items.card,
      'card',
      {
        ...job.options('fabric', 'place', 'hoop', 'quantity', 'threads', 'garment-color'),
        ...job.options('order', 'customer', 'due', 'remarks', 'language'),
        out: named('card.html'),
      },
      sewn(),
    );

  const replyOptions = (): Record<string, string> => ({
    ...sized(),
    ...job.options('threads'),
    ...fabric(),
    ...(desk.relaid && { relaid: desk.relaid }),
  });

  async function letter(): Promise<void> {
    const options = { ...replyOptions(), units: desk.units };
    const file = desk.file!;
    const done = await made(items.reply, { command: 'reply', options }, file, doing.letter({ file }));
    if (done === null) return;
    const text = make('textarea', { readonly: true, rows: 14, 'aria-label': says.reply });
    text.value = done.stdout;
    const copied = make('span', { role: 'status', class: 'note' });
    const copy = button(says.copy, () => {
      navigator.clipboard.writeText(text.value).then(
        () => {
          copied.textContent = says.copied;
        },
        () => {
          text.select();
          copied.textContent = says.notCopied;
        },
      );
    });
    items.reply.body.replaceChildren(text, make('p', { class: 'choices' }, copy, copied));
    desk.work.say(doing.done);
  }

  /** That colors are missing is said on a proof alone, in words of the page. */
  const noteOn = ({ notes }: { notes: string }) => (colors().threads ? notes : says.standIns);

  const proofOptions = (out: string) => ({ ...sized(), ...colors(), ...fabric(), out });

  async function proof(): Promise<void> {
    const file = desk.file!;
    const out = named('proof.svg');
    const options = { ...proofOptions(out), units: desk.units };
    const done = await made(items.proof, { command: 'proof', options }, file, doing.making({ file: out }));
    if (done === null) return;
    const [drawn] = done.files;
    items.proof.body.replaceChildren(picture(drawn, says.proofOf({ file: bare(file) })));
    handOver(desk, items.proof.files, drawn);
    items.proof.trouble.textContent = noteOn(done);
  }

  items.relay.buttons.append(button(says.make, () => void relay()));
  items.card.buttons.append(button(says.makeCard, () => void card()));
  items.reply.buttons.append(
    button(says.writeReply, () => void letter()),
    button(
      says.makeReply,
      () =>
        void handOut(
          items.reply,
          'reply',
          { ...replyOptions(), out: named('reply.html'), format: 'html' },
          desk.file!,
        ),
    ),
  );
  items.proof.buttons.append(
    button(says.showProof, () => void proof()),
    button(
      says.makeProof,
      () => void handOut(items.proof, 'proof', proofOptions(named('proof.html')), desk.file!),
    ),
  );
  const advice = button(says.makeAdvice, () => {
    const options = { ...job.options('fabric', 'place', 'hoop', 'quantity'), format: 'html' };
    void handOut(items.report, 'advise', { ...options, out: named('setup.html') }, desk.file!);
  });
  items.report.buttons.append(
    button(says.makeCheck, () => {
      const options = { ...sized(), format: 'html', 'fail-on': 'never' };
      void handOut(items.report, 'vet', { ...options, out: named('check.html') }, desk.file!);
    }),
    advice,
  );

  /** What each thing is for, as it stands now. */
  function tell(): void {
    const asked = plan !== null && plan.recommended.underlay.length > 0;
    items.relay.use.textContent = says.relaidUse[asked ? 'asked' : plan ? 'needless' : 'offered'];
    items.relay.article.classList.toggle('asked', asked && desk.relaid === null);
    items.card.use.textContent = plan ? says.cardUse({ file: bare(sewn()) }) : says.cardFirst;
    items.card.buttons.hidden = plan === null;
    items.reply.use.textContent = says.replyUse;
    items.proof.use.textContent = says.proofUse[plan ? 'relief' : 'plain'];
    items.report.use.textContent = says.reportUse;
    advice.hidden = plan === null;
  }

  return {
    section,
    show(now) {
      plan = now;
      desk.relaid = null;
      section.hidden = desk.file === null;
      for (const { body, files, trouble } of Object.values(items)) {
        body.replaceChildren();
        files.replaceChildren();
        trouble.textContent = '';
      }
      tell();
    },
  };
}
