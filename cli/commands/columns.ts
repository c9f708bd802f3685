import { columnsCsvHeader } from '../../lib/report/index.js';
import { listFiles } from '../batch/list.js';
import { listenForStop, runBatch, stoppedLine } from '../batch/run-batch.js';
import { workersFor } from '../batch/worker-pool.js';
import { boundsOf } from '../budget.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { print } from '../io.js';
import { jointOf } from '../joint.js';
import { lengthMm } from '../lengths.js';
import { lookOf, outputOf, refuseTargets, WORKING_OUT, writeAll } from '../output.js';
import { shopInForce } from '../settings.js';
import { conditionsFor, conditionsRequest } from '../setup-options.js';

/** `lieflat columns`: the satin columns of every file, widest first. */
export const columns: Handler<ArgsOf<'columns'>> = async (args, io) => {
  const overMm = args.over === undefined ? null : lengthMm('over', args.over);
  const shop = await shopInForce(args, io);
  const request = conditionsRequest(args, args.stack);
  const conditions = request && (await conditionsFor(shop, request));
  const { format } = args;
  const { files, missing } = await listFiles(args.words, io);
  await refuseTargets(args, io);
  const workers = workersFor(args.workers, files.length, conditions !== null);
  const { stop, letGo } = listenForStop(io, files.length);
  const output = outputOf(args, io);
  const joint = jointOf(format, files.length, columnsCsvHeader);
  try {
    let open = await output.write(joint.before);
    const { done, unread, stopped, fruitless } = await runBatch(
      {
        job: {
          name: 'columns',
          setup: {
            figures: shop.figures,
            conditions,
            overMm,
            format,
            look: lookOf(args, io),
            ...boundsOf(io),
          },
          debug: args.debug,
        },
        stop,
        paths: () => (open ? files : []),
        listed: files,
        workers,
        ordered: args.ordered || format === 'text',
        writesOut: args.out !== undefined,
        notice: conditions ? WORKING_OUT : undefined,
      },
      io,
      async ({ pieces }) => (open = await writeAll(output, joint.one(pieces))),
    );
    if (open) await output.write(joint.after);
    if (stopped) {
      await print(io.stderr, stoppedLine(done + unread, files.length, await output.setAside()));
      return EXIT.stopped;
    }
    if (fruitless) await output.abandon();
    else await output.finish();
    return missing + unread > 0 ? EXIT.unable : EXIT.clean;
  } finally {
    await output.abandon();
    letGo();
  }
};
