import { BatchTally, csvHeader, printable, type Severity } from '../../lib/index.js';
import type { VetSection } from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import { earlierReports } from '../batch/earlier.js';
import { listFiles } from '../batch/list.js';
import { markOf, settingsMark } from '../batch/mark.js';
import { boundsOf, listenForStop, runBatch, stoppedLine } from '../batch/run-batch.js';
import { isLong, summaryFile, summaryText } from '../batch/sum-up.js';
import { workersFor } from '../batch/worker-pool.js';
import { EXIT, type Handler, type TypedWords } from '../command.js';
import { conditionsFor, goodsRequest, type SetupOptions } from '../goods.js';
import { print } from '../io.js';
import { jointOf } from '../joint.js';
import type { Everywhere, Many, PlacementOptions, Report } from '../options.js';
import { lookOf, outputOf, refuseTargets, WORKING_OUT, writeAll } from '../output.js';
import { settingsOf } from '../settings.js';

interface VetArgs extends TypedWords, Everywhere, PlacementOptions, SetupOptions, Many, Report {
  format: 'text' | 'json' | 'jsonl' | 'csv' | 'html';
  objects: boolean;
  'fail-on': Severity | 'never';
  since?: string[];
  watch: boolean;
  summary?: string;
  quiet: boolean;
}

/** Designs that a page holds: some hundred pictures are what a browser shows without trouble. */
const MOST_ON_A_PAGE = 200;

/** What is found at or above each level. */
const FOUND_FROM: Readonly<Record<Severity | 'never', readonly Severity[]>> = {
  note: ['note', 'warn', 'fail'],
  warn: ['warn', 'fail'],
  fail: ['fail'],
  never: [],
};

/** `lieflat vet`: every file read, vetted and reported in turn. */
export const vet: Handler<VetArgs> = async (args, io) => {
  const { format, objects, out, quiet } = args;
  const { shop, ...fit } = await settingsOf(args, io);
  const { figures } = shop;
  const request = goodsRequest(args, args.stack);
  const goods = request && (await conditionsFor(shop, request));
  const saveSummary = args.summary === undefined ? null : summaryFile(args.summary, args, io);
  const mark = args.since || format.startsWith('json') ? settingsMark({ ...fit, shop: figures, goods }) : '';
  const earlier = args.since && (await earlierReports(args.since, (sha) => markOf(mark, figures, sha), io));
  const watch = args.watch ? await watchOf(args, io) : null;
  const { files, missing } = watch ? { files: [], missing: 0 } : await listFiles(args.words, io);
  await refuseTargets(args, io);
  if (format === 'html') refuseManyOnAPage(files.length);
  const workers = workersFor(args.workers, files.length, goods !== null);
  const total = watch ? null : files.length;
  const { stop, letGo } = listenForStop(io, total);
  const output = outputOf(args, io);
  const sections: VetSection[] = [];
  const joint = jointOf(format, files.length, csvHeader);
  const tally = new BatchTally();
  let found = false;
  try {
    const before = earlier && out === undefined && format === 'jsonl' ? earlier.before : '';
    let open = await output.write(before + joint.before);
    const ended = await runBatch(
      {
        job: {
          name: 'vet',
          setup: { figures, fit, goods, format, objects, look: lookOf(args, io), mark, ...boundsOf(io) },
          debug: args.debug,
        },
        stop,
        paths: (stop) => (!open ? [] : (watch?.arrivals(stop) ?? files)),
        total,
        workers,
        ordered: !watch && (args.ordered || format === 'text' || format === 'html'),
        before: earlier?.hashes,
        writesOut: out !== undefined,
        notice: goods ? WORKING_OUT : undefined,
      },
      io,
      async ({ pieces, digest, entry }) => {
        tally.add(digest!);
        found ||= FOUND_FROM[args['fail-on']].some((severity) => digest!.found[severity] > 0);
        if (entry) sections.push({ markup: [...pieces].join(''), entry });
        else open = await writeAll(output, joint.one(pieces));
        return open;
      },
    );
    tally.addOthers({ unread: missing + ended.unread, skipped: ended.skipped });
    const of = files.length;
    const done = ended.done + ended.unread + ended.skipped;
    const stopped = ended.stopped ? { done, of } : null;
    const summary = tally.summary(stopped);
    const { unread, skipped } = summary.files;
    if (open) {
      const page =
        format === 'html'
          ? (await import('../batch/pages.js')).joinVetSections(sections, {
              ...args,
              unread,
              summary,
            })
          : '';
      await output.write(page + joint.after);
      if (format === 'text' && (watch || files.length > 1))
        await output.write(`\n${await summaryText(summary, args, io)}`);
      if (stopped && format === 'jsonl') await output.write(`${JSON.stringify({ stopped })}\n`);
    }
    // A list in lines says itself that it is not whole; nothing else may stand for the whole one.
    const aside = stopped && format !== 'jsonl' ? await output.setAside() : null;
    if (ended.fruitless) await output.abandon();
    else if (!stopped || format === 'jsonl') await output.finish();
    await saveSummary?.(summary);
    if (!quiet && format !== 'text' && (watch || skipped > 0 || (isLong(summary) && format !== 'html')))
      await print(io.stderr, await summaryText(summary, args, io));
    if (stopped) {
      await print(io.stderr, stoppedLine(done, of, aside, wayOn(args)));
      return EXIT.stopped;
    }
    return unread > 0 ? EXIT.unable : found ? EXIT.found : EXIT.clean;
  } finally {
    await output.abandon();
    letGo();
  }
};

async function watchOf({ format, words }: VetArgs, io: Parameters<typeof vet>[1]) {
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
function wayOn({ format, out }: VetArgs): string {
  if (format !== 'jsonl') return '';
  if (out === undefined) return '; go on with --since and the file that the report went to';
  return `; go on with --since ${printable(out)}, and another -o for the rest`;
}
