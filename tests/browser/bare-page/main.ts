/** A page with the engine and no surface, for tests of what it does; bytes come and go as text of one character each. */
import { startEngine } from '../../../cli/page/engine.js';
import type { PageJob } from '../../../cli/page/protocol.js';
import type { BarePage, Came } from './bare-page.js';

declare const WORKER_TEXT: string;

const engine = startEngine(WORKER_TEXT);

async function run(job: PageJob): Promise<Came> {
  const heard: Came['heard'] = [];
  const { exit, stdout, stderr, files } = await engine.run(job, (note, share) => heard.push([note, share]));
  const came: Came = { exit, stdout, stderr, files: {}, heard };
  for (const { name, bytes } of files)
    came.files[name] = Array.from(new Uint8Array(bytes), (byte) => String.fromCharCode(byte)).join('');
  return came;
}

const bare: BarePage = {
  give: (files) =>
    engine.give(
      files.map(([name, text]) => ({ name, bytes: Uint8Array.from(text, (c) => c.charCodeAt(0)).buffer })),
    ),
  forget: (names) => engine.forget(names),
  run,
  async runMeanwhile(job) {
    let [answers, working] = [0, true];
    const came = run(job).finally(() => {
      working = false;
    });
    while (working) {
      await new Promise((go) => setTimeout(go));
      answers++;
    }
    return { ...(await came), answers };
  },
  ended: (job, stop) => {
    const ended = run(job).then(
      () => 'done',
      (error) => `${error.stopped ? 'stopped' : 'failed'}: ${error.message}`,
    );
    if (stop) engine.stop();
    return ended;
  },
};

Object.assign(globalThis, { bare });
