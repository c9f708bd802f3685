/** Many files at once: a line each, and what they come to. */
import type { Voice } from '../voice.js';

type FileCounts = Readonly<Record<'vetted' | 'sound' | 'warn' | 'fail' | 'unread' | 'skipped', number>>;

export const batch = {
  title: 'File check: all together',
  /** What is wrong with a file in which nothing is: of the design on the garment. */
  onGarment: { warn: 'wrinkles', fail: 'no hoop holds it' },
  /** `needle points piled +2`. */
  andOthers: ({ why, others }: { why: string; others: number }, say: Voice): string =>
    `${why} +${say.count(others)}`,
  othersNote: '+ counts what else is wrong: lieflat vet with that file alone says it all.',
  /** In the place of a verdict. */
  notRead: 'NOT READ',
  pageTitle: ({ designs }: { designs: number }, say: Voice): string =>
    `File check: all together, ${say.counted(designs, 'design')}`,
  column: {
    verdict: 'verdict',
    file: 'file',
    size: (_: Record<never, never>, say: Voice): string => `size ${say.units}`,
    stitches: 'stitches',
    risk: 'risk',
    wrong: 'what is wrong',
    files: 'files',
    times: 'times',
    level: 'level',
    found: 'found',
    grade: 'grade',
  },
  /** `5 files: 2 good to sew, 2 to check first, 1 not to sew`. */
  count: (
    { files, stopped }: { files: FileCounts; stopped: { done: number; of: number } | null },
    say: Voice,
  ): string => {
    const { vetted, sound, warn, fail, unread, skipped } = files;
    const parts = [
      [sound, 'good to sew'],
      [warn, 'to check first'],
      [fail, 'not to sew'],
      [unread, 'not read'],
      [skipped, 'checked before'],
    ] as const;
    const said = parts.filter(([n]) => n > 0).map(([n, words]) => `${say.count(n)} ${words}`);
    const end = stopped ? `; ${batch.stopped(stopped, say)}` : '';
    return `${say.counted(vetted + unread + skipped, 'file')}: ${said.join(', ')}${end}`;
  },
  /** Below the count; `only`: the path of the one file there is to send back. */
  sendBack: ({ files, only }: { files: readonly string[]; only: string | null }, say: Voice): string => {
    const left = files.length - MOST_BACK;
    const named = files.slice(0, MOST_BACK);
    const file = only === null || /\s/.test(only) ? '<file>' : only;
    return `Send back: ${say.list(left > 0 ? [...named, `${say.count(left)} more`] : named)}.${say.typed(` For the mail: lieflat reply ${file}`)}`;
  },
  stopped: ({ done, of }: { done: number; of: number }, say: Voice): string =>
    `stopped after ${say.count(done)} of ${say.counted(of, 'file')}`,
  /** Files beside the designs, by the ending of their names; `''` for names without one. */
  otherEndings: (
    { endings }: { endings: readonly { readonly ending: string; readonly files: number }[] },
    say: Voice,
  ): string => {
    const named = endings
      .slice(0, MOST_ENDINGS)
      .map(({ ending, files }) =>
        ending === '' ? `${say.count(files)} with no ending` : `${say.count(files)} ${ending}`,
      );
    const left = endings.slice(MOST_ENDINGS).reduce((sum, { files }) => sum + files, 0);
    return `Left alone, as only .dst and .csv are read: ${say.list(left > 0 ? [...named, `${say.count(left)} more`] : named)}.`;
  },
  /** What is missing where a summary was put together from parts. */
  gap: {
    open: 'No part says where it ends (vet --shard writes that), so files that could not be read are not counted.',
    missing: ({ missing, parts }: { missing: readonly number[]; parts: number }, say: Voice): string => {
      const named = `${say.list(missing.map(String))} of ${parts}`;
      const shard = `vet --shard ${missing[0]}/${parts}`;
      return missing.length === 1
        ? `Part ${named} is missing: check it with ${shard}, and give its file too.`
        : `Parts ${named} are missing: check them with ${shard} and so on, and give their files too.`;
    },
    unfinished: ({ part, parts, left }: { part: number; parts: number; left: number }, say: Voice): string =>
      `Part ${part} of ${parts} lacks ${say.counted(left, 'file')}: check it again with vet --shard ${part}/${parts}, and give that file too.`,
    unlike: {
      parts: 'The archive was cut into different numbers of parts: keep to one number for all.',
      archive:
        'The parts were cut from different lists of files: give every machine the same folder under the same name.',
      settings:
        'The parts were checked under different settings or by different versions: check them again, all under the same.',
    },
    changed: ({ changed }: { changed: readonly string[] }, say: Voice): string => {
      const left = changed.length - MOST_COPIES;
      const named = [...changed.slice(0, MOST_COPIES), ...(left > 0 ? [`${say.count(left)} more`] : [])];
      return `Reported twice, and changed in between: ${say.list(named)}. The first report counts; check again what changed.`;
    },
  },
  inFolder: ({ folder }: { folder: string }, _: Voice): string => `In ${folder}`,
  copies: 'The same file under other names',
  copiesOf: ({ file, copies }: { file: string; copies: readonly string[] }, say: Voice): string => {
    const left = copies.length - MOST_COPIES;
    const named = copies.slice(0, MOST_COPIES).join(', ');
    return `${file} = ${named}${left > 0 ? `, and ${say.count(left)} more` : ''}`;
  },
  /** In place of a report that was told already. */
  sameAs: ({ file, first }: { file: string; first: string }, _: Voice): string =>
    `${file} is the same file as ${first}, byte for byte.`,
  foundInMost: 'Found in most files',
  worst: 'Worst first',
  stitches: ({ stitches }: { stitches: number }, say: Voice): string =>
    `${say.counted(stitches, 'stitch', 'stitches')} in all`,
  widths: ({ columns }: { columns: number }, say: Voice): string =>
    `Width of ${say.counted(columns, 'satin column')}, ${say.units}`,
  densities: ({ areas }: { areas: number }, say: Voice): string =>
    `Needle points a mm² in ${say.counted(areas, 'column or fill', 'columns and fills')}`,
  step: ({ from, to }: { from: string; to: string | null }, _: Voice): string =>
    to === null ? `${from} and more` : `${from} to ${to}`,
};

/** Endings and copies that are named; the rest are counted. */
const MOST_ENDINGS = 8;
const MOST_COPIES = 5;
/** Files to send back that are named; the worst go first. */
const MOST_BACK = 5;
