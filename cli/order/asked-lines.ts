/** The lines of an order: a table, or the files that the command line names. */
import { basename, dirname } from 'node:path';
import { formatOf, printable } from '../../lib/index.js';
import { fileState, isTableOfSomethingElse, pathIn, readBytes } from '../../lib/io/index.js';
import {
  joinedFaults,
  linesOfFiles,
  type OrderFault,
  type OrderLine,
  type OrderLookup,
  type OrderTable,
  readOrder,
} from '../../lib/order/index.js';
import { listFiles } from '../batch/list.js';
import { type ErrorTold, inFile, lineOfParts } from '../error-lines.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';

export interface AskedOrder extends OrderTable {
  /** The table, as the command line names it; null where files were named. */
  readonly table: string | null;
  /** How many words led nowhere. */
  readonly missing: number;
  readonly pathOf: (line: OrderLine) => string;
}

/** @throws LieflatError `undecodable` where the table is none, `unreadable`, `bad-argument` */
export async function askedLines(words: readonly string[], lookup: OrderLookup, io: Io): Promise<AskedOrder> {
  const [word] = words;
  const path = pathFrom(io, word);
  if (words.length === 1 && (await isOrderTable(path))) {
    const order = await inFile(word, async () => readOrder(await readBytes(path, io), lookup));
    const folder = dirname(path);
    const faults = await Promise.all(order.faults.map((fault) => withMissingFile(fault, folder)));
    return { ...order, faults, table: word, missing: 0, pathOf: ({ file }) => pathIn(folder, file) };
  }
  const { files, missing } = await listFiles(words, io);
  return { ...linesOfFiles(files, lookup), table: null, missing, pathOf: ({ file }) => file };
}

/** A line that is wrong already is not worked on: that its file is not there is said with the rest. */
async function withMissingFile(fault: OrderFault, folder: string): Promise<OrderFault> {
  const { file, line } = fault;
  if (file === undefined || (await fileState(pathIn(folder, file))) !== null) return fault;
  return {
    line,
    ...joinedFaults([{ what: `${file}: there is no such file`, todo: 'check its name' }, fault]),
  };
}

const isOrderTable = async (path: string): Promise<boolean> =>
  /\.(tsv|txt)$/i.test(path) || (formatOf(path) === 'csv' && (await isTableOfSomethingElse(path)));

/** Says on standard error what is wrong with a line; a file that was named without a table is its own place. */
export const sayFault = (
  table: string | null,
  { line, what, todo }: OrderTable['faults'][number],
  io: Io,
): Promise<boolean> =>
  print(io.stderr, lineOfParts({ place: table === null ? '' : `${table}: line ${line}`, what, todo }));

/** The same of a line whose design could not be worked on. */
export const faultOf = ({ line }: OrderLine, { place, what, todo }: ErrorTold): OrderFault => ({
  line,
  what: printable(`${place === '' ? '' : `${place}: `}${what}`),
  todo: printable(todo),
});

/** What is made of each line, called as its file is: with the number of the line where two would have one name. */
export function madeNames(
  lines: readonly OrderLine[],
): Map<number, { relaid: string; card: string; proof: string }> {
  const named = lines.map(({ line, file }) => {
    const name = basename(file);
    const ending = formatOf(name) === null ? null : /\.[^.]*$/.exec(name)![0];
    return { line, stem: ending === null ? name : name.slice(0, -ending.length), ending: ending ?? '.dst' };
  });
  const times = new Map<string, number>();
  for (const { stem } of named) times.set(stem.toLowerCase(), 1 + (times.get(stem.toLowerCase()) ?? 0));
  return new Map(
    named.map(({ line, stem, ending }) => {
      const own = times.get(stem.toLowerCase()) === 1 ? stem : `${stem}-line${line}`;
      return [
        line,
        { relaid: `relaid/${own}${ending}`, card: `cards/${own}.html`, proof: `proofs/${own}.svg` },
      ];
    }),
  );
}
