import {
  csvHeader,
  goodsOf,
  joinVetSections,
  type Severity,
  toCsvRecords,
  toJson,
  toJsonLine,
  toText,
  type VetSection,
  type VettedDesign,
  vetDesign,
  vetOnGoods,
  vetSection,
} from '../../lib/index.js';
import { batchOf, readOne } from '../batch.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { formatter } from '../formatter.js';
import { type Goods, goodsRequest } from '../goods.js';
import type { Everywhere, Fit, Report } from '../options.js';
import { outputOf, textOptions } from '../output.js';
import { settingsOf } from '../settings.js';

interface VetArgs extends Words, Everywhere, Fit, Goods, Report {
  format: 'text' | 'json' | 'jsonl' | 'csv' | 'html';
  objects: boolean;
  'fail-on': Severity | 'never';
}

const RANK: Readonly<Record<Severity | 'never', number>> = {
  note: 0,
  warn: 1,
  fail: 2,
  never: Number.POSITIVE_INFINITY,
};

/** `lieflat vet`: every file read, vetted and reported in turn. */
export const vet: Handler<VetArgs> = async (args, io) => {
  const settings = await settingsOf(args, io);
  const request = goodsRequest(args, args.stack);
  const goods = request && (await goodsOf(request, settings.shop));
  const text = await textOptions(args, io);
  const batch = await batchOf(args.words, io);
  const output = outputOf(args, io, batch.files);
  const sections: VetSection[] = [];
  const format = formatter<VettedDesign>(args.format, batch.files.length, {
    text: ({ report }) => toText(report, text, args.objects),
    json: ({ report }) => toJson(report),
    jsonl: ({ report }) => toJsonLine(report),
    csv: { header: csvHeader, records: ({ report }) => toCsvRecords(report) },
    html: {
      part: async (design, number) => sections.push(await vetSection(design, number, args)),
      page: () => joinVetSections(sections, { ...args, unread: batch.files.length - sections.length }),
    },
  });
  const tally = { sound: 0, warn: 0, fail: 0 };
  let found = false;
  let open = await output.write(format.before);
  for (const path of batch.files) {
    if (!open) break;
    const file = await readOne(path, batch, io);
    if (file === null) continue;
    const asked = { ...settings, file: factsOf(file) };
    const vetting = goods ? await vetOnGoods(file.design, asked, goods) : vetDesign(file.design, asked);
    const worst = vetting.report.findings.reduce((most, { severity }) => Math.max(most, RANK[severity]), -1);
    tally[worst === RANK.fail ? 'fail' : worst === RANK.warn ? 'warn' : 'sound']++;
    found ||= worst >= RANK[args['fail-on']];
    open = await output.write(await format.one(vetting));
  }
  if (open) await output.write(await format.after());
  if (open && args.format === 'text' && batch.files.length > 1) {
    await output.write(`\n${summary(tally, batch.files.length)}\n`);
  }
  await output.finish();
  return batch.failed ? EXIT.unable : found ? EXIT.found : EXIT.clean;
};

/** `5 files: 2 sound, 2 to look at, 1 not to sew`. */
function summary(
  { sound, warn, fail }: { sound: number; warn: number; fail: number },
  files: number,
): string {
  const unread = files - sound - warn - fail;
  const parts = [
    [sound, 'sound'],
    [warn, 'to look at'],
    [fail, 'not to sew'],
    [unread, 'not read'],
  ] as const;
  return `${files} files: ${parts
    .filter(([n]) => n > 0)
    .map(([n, words]) => `${n} ${words}`)
    .join(', ')}`;
}
