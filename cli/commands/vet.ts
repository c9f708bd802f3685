import {
  type BatchSummary,
  BatchTally,
  printable,
  Triage,
  toJsonLine,
  type UnreadFile,
} from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import { earlierReports } from '../batch/earlier.js';
import { isFound } from '../batch/fail-on.js';
import { type FileList, listFiles } from '../batch/list.js';
import { markOf, settingsMark } from '../batch/mark.js';
import { type Ended, listenForStop, runBatch, stoppedLine } from '../batch/run-batch.js';
import { partOf, shardNamed } from '../batch/shard.js';
import { isLong, summaryFile, summaryText } from '../batch/sum-up.js';
import { vetFormOf } from '../batch/vet-forms.js';
import { workersFor } from '../batch/worker-pool.js';
import { boundsOf } from '../budget.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import type { ErrorTold } from '../error-lines.js';
import { type Io, print } from '../io.js';
import { lookOf, type Output, outputOf, refuseTargets, WORKING_OUT, writeAll } from '../output.js';
import { settingsOf } from '../settings.js';
import { conditionsFor, conditionsRequest } from '../setup-options.js';

/** Designs that a page holds: some hundred pictures are what a browser shows without trouble. */
const MOST_ON_A_PAGE = 200;

/** `lieflat vet`: every file read, vetted and reported in turn. */
export const vet: Handler<ArgsOf<'vet'>> = async (args, io) => {
  const asked = await askedOf(args, io);
  const { stop, letGo } = listenForStop(io, asked.watch ? null : asked.list.files.length);
  const output = outputOf(args, io);
  try {
    const done = await reported(asked, args, output, stop, io);
    const aside = await putInPlace(output, done, asked.part !== null, args);
    await asked.saveSummary?.(done.summary);
    await sumUp(done, asked, aside, args, io);
    return done.exit;
  } finally {
    await output.abandon();
    letGo();
  }
};

/** Everything that is settled before the first file is read. */
async function askedOf(args: ArgsOf<'vet'>, io: Io) {
  const { format, watch: watched, details, shard } = args;
  const cut = shard === undefined ? null : shardNamed(shard);
  if (cut && watched)
    throw badArgument('--watch takes all that comes', 'leave out --shard, or check without --watch');
  const { shop, ...fit } = await settingsOf(args, io);
  const { figures } = shop;
  const request = conditionsRequest(args, args.stack);
  const conditions = request && (await conditionsFor(shop, request));
  // A table needs every file, the other forms of a summary only what they come to.
  const rows = /\.csv$/i.test(args.summary ?? '') ? new Triage() : null;
  const csv = { csv: () => rows?.csv() ?? '' };
  const saveSummary = args.summary === undefined ? null : summaryFile(args.summary, args, io, csv);
  const mark =
    args.since || format.startsWith('json') ? settingsMark({ ...fit, shop: figures, conditions }) : '';
  const earlier = args.since && (await earlierReports(args.since, (sha) => markOf(mark, figures, sha), io));
  const watch = watched ? await watchOf(args, io) : null;
  const all = watch ? NO_FILES : await listFiles(args.words, io);
  const part = cut && partOf(all, cut);
  const list = part?.list ?? all;
  await refuseTargets(args, io);
  if (format === 'html') refuseManyOnAPage(list.files.length);
  const look = lookOf(args, io);
  const form = await vetFormOf({ format, files: list.files.length, watched, details }, look);
  return { figures, fit, conditions, saveSummary, mark, earlier, watch, list, part, look, form, rows };
}

type Asked = Awaited<ReturnType<typeof askedOf>>;

const NO_FILES: FileList = { files: [], missing: 0, faults: [], otherEndings: new Map() };

/** What came of a batch whose reports are written. */
interface Reported {
  readonly ended: Ended;
  readonly summary: BatchSummary;
  readonly exit: number;
}

/** Works on the files, writes each report as it comes, and then what all come to. */
async function reported(
  asked: Asked,
  args: ArgsOf<'vet'>,
  output: Output,
  stop: AbortSignal,
  io: Io,
): Promise<Reported> {
  const { figures, fit, conditions, mark, earlier, watch, list, part, look, form, rows } = asked;
  const tally = new BatchTally();
  const unread = (file: UnreadFile): void => {
    rows?.addUnread(file);
    form.unread?.(file);
  };
  for (const fault of list.faults) unread(unreadFile(fault.place, fault));
  const goesOn = earlier && args.out === undefined && args.format === 'jsonl';
  let open = await output.write((goesOn ? earlier.before : '') + form.before);
  const ended = await runBatch(
    {
      job: {
        name: 'vet',
        setup: {
          figures,
          fit,
          conditions,
          format: form.sets,
          objects: args.objects,
          hashed: form.onceEach,
          look,
          mark,
          ...boundsOf(io),
        },
        debug: args.debug,
      },
      stop,
      paths: (stop) => (!open ? [] : (watch?.arrivals(stop) ?? list.files)),
      listed: watch ? null : list.files,
      workers: workersFor(args.workers, list.files.length, conditions !== null),
      ordered: !watch && (args.ordered || form.ordered),
      before: earlier?.hashes,
      writesOut: args.out !== undefined,
      notice: conditions ? WORKING_OUT : undefined,
      unread: ({ path, told }) => unread(unreadFile(path, told)),
    },
    io,
    async (done) => {
      tally.add(done.digest!);
      rows?.add(done.digest!);
      open = await writeAll(output, form.one(done));
      return open;
    },
  );
  tally.addOthers({ unread: list.missing + ended.unread, skipped: ended.skipped });
  tally.addEndings(list.otherEndings);
  const summary = tally.summary(
    ended.stopped ? { done: ended.done + ended.unread + ended.skipped, of: list.files.length } : null,
  );
  if (open) await output.write(await form.end(summary));
  if (open && part && args.format === 'jsonl' && !ended.stopped) {
    const { otherEndings } = summary;
    await output.write(toJsonLine({ ...part.end, settings: mark, unread: ended.unread, otherEndings }));
  }
  return { ended, summary, exit: exitOf(summary, args['fail-on']) };
}

/** The line of a table where something is wrong stands before it: `line 3: ...`. Bytes are for programs. */
const unreadFile = (path: string, { place, what, todo }: ErrorTold) => {
  const where = place.startsWith(path) ? place.slice(path.length).replace(/^[:, ]+/, '') : place;
  const said = where === '' || /^byte \d/.test(where) ? '' : `${where}: `;
  return { path, why: `${said}${what}; ${todo}` };
};

function exitOf(summary: BatchSummary, failOn: ArgsOf<'vet'>['fail-on']): number {
  if (summary.stopped) return EXIT.stopped;
  if (summary.files.unread > 0) return EXIT.unable;
  return isFound(summary, failOn) ? EXIT.found : EXIT.clean;
}

/**
 * Puts the report in place. A list in lines says itself that it is not whole; nothing else may stand for the whole one.
 *
 * @param isPart a part says itself what could not be read, and may have no files
 * @returns what {@link Output.setAside} gave where it was left beside its place
 */
async function putInPlace(
  output: Output,
  { ended, summary }: Reported,
  isPart: boolean,
  { format }: ArgsOf<'vet'>,
): Promise<string | null> {
  const whole = !summary.stopped || format === 'jsonl';
  const aside = whole ? null : await output.setAside();
  if (ended.fruitless && !isPart) await output.abandon();
  else if (whole) await output.finish();
  return aside;
}

/** Says on standard error what a report for programs does not, and how to go on after a stop. */
async function sumUp(
  { summary }: Reported,
  { look, watch }: Asked,
  aside: string | null,
  args: ArgsOf<'vet'>,
  io: Io,
): Promise<void> {
  const { stopped, files } = summary;
  const worthIt = watch !== null || files.skipped > 0 || (isLong(summary) && args.format !== 'html');
  if (!args.quiet && args.format !== 'text' && worthIt)
    await print(io.stderr, await summaryText(summary, look));
  if (stopped) await print(io.stderr, stoppedLine(stopped.done, stopped.of, aside, wayOn(args)));
}

async function watchOf({ format, words }: ArgsOf<'vet'>, io: Io) {
  if (format === 'json' || format === 'html')
    throw badArgument(
      `--watch has no end that ${format} could wait for`,
      'write --format jsonl, csv or text',
    );
  return (await import('../batch/watch.js')).watchFolders(words, io);
}

function refuseManyOnAPage(files: number): void {
  if (files > MOST_ON_A_PAGE)
    throw badArgument(
      `${files} designs are more than the ${MOST_ON_A_PAGE} that one page holds`,
      'for the whole write --summary and a name that ends in .html, with --format jsonl or csv; html for the few that matter',
    );
}

/** `; go on with --since report.jsonl`: a report in lines is one to go on from. */
function wayOn({ format, out }: ArgsOf<'vet'>): string {
  if (format !== 'jsonl') return '';
  if (out === undefined) return '; go on with --since and the file that the report went to';
  return `; go on with --since ${printable(out)}, and another -o for the rest`;
}
