import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { ratesOf } from '../../lib/advice/index.js';
import {
  BatchTally,
  csvHeader,
  digestOf,
  encodeDesign,
  type FileFacts,
  factsOf,
  HOOP_FIELDS,
  PLACES,
  readDesignFile,
  readProfile,
  shopOf,
  toCsvRecords,
  toJson,
  toJsonLine,
  toText,
  type Vetting,
} from '../../lib/index.js';
import { listDesignFiles, readBytes, sha256, shardOf, writeFileSafely } from '../../lib/io/index.js';
import { linesOfFiles, type OrderSetup, sharedSetup } from '../../lib/order/index.js';
import { fullShop, offeredDesign, openLine, workedLine } from '../../lib/pipeline.js';
import { profileReport, withCalibration } from '../../lib/profile/index.js';
import {
  adviseToText,
  calibrateReport,
  colorsNamed,
  columnsReport,
  columnsToText,
  compareReports,
  compareToText,
  drawDesign,
  joinVetSections,
  materialsCatalog,
  operatorCard,
  orderReport,
  orderToText,
  PartsTally,
  partLineOf,
  placesCatalog,
  proofOf,
  proofSvg,
  puckerComparison,
  puckerReport,
  puckerToText,
  replyReport,
  replyToMail,
  type VetSection,
  vetSection,
  wrinkleMap,
} from '../../lib/report/index.js';
import type { ResewRequest } from '../../lib/rework/index.js';
import { type SewnDesign, withUnderlay } from '../../lib/rework/index.js';
import { SHOP } from '../built-in-shop.js';
import { lieflat, shopFolder } from '../cli/at-a-terminal.js';
import { writersShop } from '../cli/writing-lines.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';

onACoarseMesh(2);

const PLAIN = { width: 80, units: 'mm' } as const;
const ON = ['--fabric', 'canvas-tote'];
const REQUEST = { fabric: 'canvas-tote' };

async function vetted(path: string): Promise<Vetting & { file: FileFacts }> {
  const read = await readDesignFile(path);
  return { ...SHOP.vet(read.design, { file: factsOf(read) }), file: factsOf(read) };
}

async function puckered(path: string) {
  const vetting = await vetted(path);
  const conditions = SHOP.conditions(REQUEST);
  const [risk] = SHOP.risks(vetting, [conditions]);
  const { catalogue, parameters } = SHOP;
  return {
    vetting,
    risk,
    input: { file: vetting.file, measures: vetting.measures, risk, conditions, catalogue, parameters },
  };
}

/** What a shop does with each command, done in code: the text is the same that the command prints or writes. */
interface Job {
  command: keyof typeof COMMANDS;
  args: (at: (name: string) => string) => string[];
  inCode: (at: (name: string) => string) => Promise<string>;
}

const JOBS: Job[] = [
  {
    command: 'vet',
    args: (at) => [at('wide.dst'), '--fail-on', 'never'],
    inCode: async (at) => toText((await vetted(at('wide.dst'))).report, PLAIN),
  },
  {
    command: 'vet',
    args: (at) => [
      at('plain.dst'),
      ...ON,
      '--format',
      'csv',
      '--place',
      'left-chest',
      '--profile',
      at('shop.json'),
    ],
    inCode: async (at) => {
      const shop = fullShop(
        shopOf(await readProfile(readFileSync(at('shop.json'), 'utf8'), at('shop.json'))),
      );
      const file = await readDesignFile(at('plain.dst'));
      const place = shop.figures.places.find(({ id }) => id === 'left-chest');
      const settings = { file: factsOf(file), place };
      const { report } = shop.vetOn(file.design, settings, shop.conditions(REQUEST));
      return csvHeader() + toCsvRecords(report);
    },
  },
  {
    command: 'vet',
    args: (at) => [at('sub'), '--format', 'html'],
    inCode: async (at) => {
      const { files } = await listDesignFiles([at('sub')]);
      const tally = new BatchTally();
      const sections: VetSection[] = [];
      for (const path of files) {
        const vetting = await vetted(path);
        tally.add(digestOf(vetting.report));
        sections.push(await vetSection(vetting, sections.length + 1, PLAIN));
      }
      return joinVetSections(sections, { ...PLAIN, summary: tally.summary() });
    },
  },
  {
    command: 'summary',
    args: (at) => [at('part.jsonl'), '--format', 'json', '--fail-on', 'never'],
    inCode: async (at) => {
      const { files } = await listDesignFiles([at('sub')]);
      const parts = new PartsTally();
      for (const path of files) parts.add({ is: 'report', report: (await vetted(path)).report });
      const end = toJsonLine({
        schema: 'lieflat/vet-part@1',
        shard: { part: 1, of: 1 },
        settings: '',
        archive: { files: files.length, sha256: sha256(files.join('\0')) },
        files: files.length,
        unread: 0,
        missing: 0,
        otherEndings: [],
      });
      const last = partLineOf(JSON.parse(end));
      if (last !== null) parts.add(last);
      return toJson(parts.summary(shardOf));
    },
  },
  {
    command: 'columns',
    args: (at) => [at('wide.dst'), '--over', '4'],
    inCode: async (at) => columnsToText(columnsReport(await vetted(at('wide.dst')), 4, null), PLAIN),
  },
  {
    command: 'pucker',
    args: (at) => [at('plain.dst'), ...ON],
    inCode: async (at) => puckerToText(await puckerReport((await puckered(at('plain.dst'))).input), PLAIN),
  },
  {
    command: 'pucker',
    args: (at) => [
      at('plain.dst'),
      ...ON,
      '--stack',
      'cutaway-mesh-1.5oz',
      '--stack',
      'cutaway-3oz',
      '--format',
      'json',
    ],
    inCode: async (at) => {
      const { vetting, input } = await puckered(at('plain.dst'));
      const conditions = ['cutaway-mesh-1.5oz', 'cutaway-3oz'].map((stack) =>
        SHOP.conditions({ ...REQUEST, stack }),
      );
      const risks = SHOP.risks(vetting, conditions);
      return toJson(
        await puckerComparison(risks.map((risk, i) => ({ ...input, risk, conditions: conditions[i] }))),
      );
    },
  },
  {
    command: 'pucker',
    args: (at) => [at('plain.dst'), ...ON, '--map', at('out.svg')],
    inCode: async (at) => {
      const { vetting, risk, input } = await puckered(at('plain.dst'));
      const { stitches, designMeasures } = vetting;
      const shown = {
        stitches,
        bounds: designMeasures.bounds,
        maps: risk.maps,
        report: await puckerReport(input),
      };
      return wrinkleMap(shown, { title: 'plain.dst', units: 'mm' });
    },
  },
  {
    command: 'advise',
    args: (at) => [at('plain.dst'), ...ON, '--stack', 'cutaway-3oz'],
    inCode: async (at) => {
      const vetting = await vetted(at('plain.dst'));
      const advice = SHOP.advise(vetting, { ...REQUEST, stack: 'cutaway-3oz' });
      return adviseToText(SHOP.adviseReport(vetting.file, advice, vetting.set), PLAIN);
    },
  },
  {
    command: 'compare',
    args: (at) => [at('plain.dst'), at('wide.dst')],
    inCode: async (at) => {
      const [before, after] = [await vetted(at('plain.dst')), await vetted(at('wide.dst'))];
      return compareToText(await compareReports(before.report, after.report), PLAIN);
    },
  },
  {
    command: 'reply',
    args: (at) => [at('plain.dst'), '--threads', 'navy'],
    inCode: async (at) => {
      const { report } = await vetted(at('plain.dst'));
      return replyToMail(replyReport({ report, relaid: null, threads: colorsNamed('navy') }), 'mm');
    },
  },
  {
    command: 'card',
    args: (at) => [at('plain.dst'), ...ON, '--stack', 'cutaway-3oz', '-o', at('out.html')],
    inCode: async (at) => {
      const vetting = await vetted(at('plain.dst'));
      const advice = SHOP.advise(vetting, { ...REQUEST, stack: 'cutaway-3oz' });
      const report = SHOP.adviseReport(vetting.file, advice, vetting.set);
      const plan = report.recommended;
      const sewn = await withUnderlay(vetting, new Map(plan.underlay.map(({ object, to }) => [object, to])));
      const washed = { ...advice.conditions, stack: plan.stack, washes: plan.riskWashed.washes };
      const [{ maps }] = SHOP.risks(sewn, [washed]);
      return operatorCard(
        {
          ...vetting,
          advice: report,
          grainDeg: advice.conditions.grainDeg,
          hoop: advice.hoop,
          place: undefined,
          maps,
          machine: SHOP.figures.machine,
          catalogue: SHOP.catalogue,
        },
        { title: 'plain.dst', units: 'mm', paper: 'letter', language: 'en', cost: false },
      );
    },
  },
  {
    command: 'draw',
    args: (at) => [at('plain.dst'), '--by', 'width', '-o', at('out.svg')],
    inCode: async (at) =>
      drawDesign(await vetted(at('plain.dst')), { by: 'width', title: 'plain.dst', units: 'mm' }),
  },
  {
    command: 'convert',
    args: (at) => [at('plain.dst'), '-o', at('out.csv')],
    inCode: async (at) => {
      const { design, path } = await readDesignFile(at('plain.dst'));
      await writeFileSafely(at('mine.csv'), encodeDesign(design, 'csv'), { inputs: [path] });
      return readFileSync(at('mine.csv'), 'utf8');
    },
  },
  {
    command: 'relay',
    args: (at) => [at('wide.dst'), '--objects', '1', '-o', at('out.csv')],
    inCode: async (at) => {
      const file = await readDesignFile(at('wide.dst'));
      const relaid = await SHOP.relay(
        file.design,
        { file: factsOf(file) },
        { objects: [1], to: 'fill', format: 'csv' },
      );
      return new TextDecoder().decode(relaid.bytes);
    },
  },
  {
    command: 'resew',
    args: (at) => [at('plain.dst'), '--dry-run', '--scale', '4%', '--format', 'json'],
    inCode: async (at) => {
      const before = await vetted(at('plain.dst'));
      const by = { x: 0.04, y: 0.04, dx: 0, dy: 0 };
      const wish: ResewRequest = { mode: null, by, offsetGiven: false, slackMm: 0 };
      return toJson((await SHOP.resew(before, wish, { file: before.report.file }, null)).report);
    },
  },
  {
    command: 'order',
    args: (at) => [at('plain.dst'), ...ON, '--quantity', '12', '--out-dir', at('done')],
    inCode: async (at) => {
      const lookup = {
        ...SHOP.figures,
        catalogue: SHOP.catalogue,
        checkColors: () => {},
        garment: 'canvas-tote',
      };
      const [line] = linesOfFiles([at('plain.dst')], { ...lookup, quantity: 12 }).lines;
      const opened = openLine(SHOP, line, await readDesignFile(line.file));
      const names = { relaid: 'relaid/plain.dst', card: 'cards/plain.html', proof: 'proofs/plain.svg' };
      const look = { units: 'mm', paper: 'letter', language: 'en' } as const;
      const work = (setup: OrderSetup) => workedLine(SHOP, opened, setup, names, look);
      const offered = [{ ...offeredDesign(opened), quantity: 12 }];
      const setup = await sharedSetup(offered, SHOP.catalogue.needles, {
        plansOn: async (_, stack) => opened.advice.ranked(stack),
        chanceOf: async (_, on) => (await work(on)).worked.chance,
      });
      const { worked } = await work(setup);
      const done = [{ line, worked, group: 'canvas-tote', path: '../plain.dst' }];
      const report = orderReport(done, [], ratesOf(SHOP.figures), SHOP.catalogue);
      return orderToText(report, { ...PLAIN, folder: 'done' });
    },
  },
  {
    command: 'proof',
    args: (at) => [at('plain.dst'), '-o', at('out.svg'), '--threads', 'navy'],
    inCode: async (at) => {
      const { stitches, designMeasures } = await vetted(at('plain.dst'));
      const views = [{ stitches, maps: null, caption: [] }];
      const threads = colorsNamed('navy');
      const proof = proofOf(
        { ...designMeasures, name: 'plain.dst', views, threads, garment: null },
        { units: 'mm', detail: 'full' },
      );
      return proofSvg(proof);
    },
  },
  {
    command: 'page',
    args: (at) => ['-o', at('out.html')],
    inCode: async () => readFileSync(fileURLToPath(import.meta.resolve('lieflat/page.html')), 'utf8'),
  },
  {
    command: 'profile',
    args: (at) => ['--format', 'json', '--profile', at('shop.json')],
    inCode: async (at) => {
      const shop = await readProfile(readFileSync(at('shop.json'), 'utf8'), at('shop.json'));
      return toJson(await profileReport(at('shop.json'), shop));
    },
  },
  {
    command: 'calibrate',
    args: (at) => [at('writers/log.csv'), '-o', at('out.json')],
    inCode: async (at) => {
      const log = await SHOP.readSewOuts(await readBytes(at('writers/log.csv')));
      const designs = new Map<string, SewnDesign>();
      for (const { file } of log.rows) designs.set(file, await vetted(at(`writers/${file}`)));
      const calibration = await SHOP.calibrate(log.rows, designs, at('writers/log.csv'));
      const report = await calibrateReport({ path: at('writers/log.csv'), log, calibration });
      return withCalibration(null, report.calibration);
    },
  },
  {
    command: 'catalog',
    args: () => ['--format', 'json'],
    inCode: async () =>
      toJson({ ...materialsCatalog(SHOP.catalogue), ...placesCatalog(PLACES, HOOP_FIELDS) }),
  },
];

describe('everything that the command line does', () => {
  it('has a job here', () => {
    expect(new Set(JOBS.map(({ command }) => command))).toEqual(new Set(Object.keys(COMMANDS)));
  });

  it.each(JOBS.filter(({ command }) => IN_FULL || command !== 'calibrate'))(
    'can be done in code: $command',
    async ({ command, args, inCode }) => {
      const { folder, at } = shopFolder();
      writeFileSync(
        at('shop.json'),
        JSON.stringify({ accept: { grade: 4 }, limits: { 'satin-too-narrow': 4 } }),
      );
      mkdirSync(at('writers'));
      if (command === 'calibrate') writersShop(at('writers'));
      mkdirSync(at('sub'));
      for (const name of ['plain.dst', 'wide.dst']) copyFileSync(at(name), at(`sub/${name}`));
      if (command === 'summary')
        await lieflat(['vet', at('sub'), '--shard', '1/1', '--format', 'jsonl', '-o', at('part.jsonl')]);
      const words = args(at);
      const { code, out } = await lieflat([command, ...words], { cwd: folder });
      expect(code).toBeLessThan(2);
      const target = words.find((word) => basename(word).startsWith('out.'));
      const byCommand = target === undefined ? out : readFileSync(target, 'utf8');
      expect(byCommand.length).toBeGreaterThan(100);
      expect(await inCode(at)).toBe(byCommand);
    },
  );
});
