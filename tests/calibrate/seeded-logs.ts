/**
 * Logs of shops whose parameters are known, and how often a fit finds them: `npx tsx tests/calibrate/seeded-logs.ts --shops 5 --logs 20` prints it and
 * ends with 1 where a parameter lies outside its interval in more than one log of ten.
 */
import { parseArgs } from 'node:util';
import { fitSewOuts, type Observation, predicted } from '../../lib/calibrate/fit.js';
import { FREE, type FreeName } from '../../lib/calibrate/free-parameters.js';
import { writtenGrade } from '../../lib/calibrate/rater.js';
import type { SewOutModel } from '../../lib/calibrate/sew-out-model.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import {
  anyTruth,
  atBuiltIn,
  graded,
  gradeOf,
  measured,
  modelsOf,
  PRIORS,
  prepared,
  repeatable,
  type SewnOn,
  truthOf,
  widthOf,
} from './shop.js';

const on = (fabric: string, stack: string, washes: number): SewnOn => ({ fabric, stack, washes });

/** What each shop sews. */
export const SEWN: readonly SewnOn[] = [
  on('performance-knit-thin', 'cutaway-2.5oz', 0),
  on('performance-knit-thin', 'cutaway-2.5oz', 1),
  on('performance-knit-thin', 'woven-polyester', 0),
  on('performance-knit', 'cutaway-2.5oz', 0),
  on('jersey-tee', 'cutaway-2.5oz', 0),
  on('jersey-tee', 'cutaway-2.5oz', 1),
  on('jersey-tee', 'cutaway-2.5oz', 8),
  on('poplin', 'none', 0),
  on('poplin', 'none', 1),
  on('pique-knit', 'cutaway-2.5oz', 0),
];

export interface Found {
  readonly logs: number;
  /** Logs in which a parameter lies inside its interval. */
  readonly inside: Readonly<Record<FreeName, number>>;
  /** Logs in which all of them do. */
  readonly all: number;
  /** Logs after which what is predicted lies nearer to the truth than before. */
  readonly better: number;
  /** The widest interval of all, high over low. */
  readonly widest: number;
}

/**
 * @param seed of the shops and of what their people write down
 * @param models of what each shop sews
 */
export async function seededLogs(
  design: PreparedDesign,
  models: ReadonlyMap<SewnOn, SewOutModel>,
  shops: number,
  logs: number,
  seed: number,
): Promise<Found> {
  const random = repeatable(seed);
  const sewn = [...models];
  const inside = Object.fromEntries(FREE.map((name) => [name, 0])) as Record<FreeName, number>;
  let [all, better, widest] = [0, 0, 0];
  for (let shop = 0; shop < shops; shop++) {
    const truth = anyTruth(random);
    const real = sewn.map(([sewnOn, model]) => ({ sewnOn, model, ...truthOf(design, sewnOn, truth) }));
    for (let log = 0; log < logs; log++) {
      const rows = real.flatMap(({ sewnOn, model, grade, widths }, i): Observation[] => [
        ...[0, 1].map(() => ({ ...gradeOf(model), seen: graded(grade, random) })),
        // One column of each fabric as sewn, wide or narrow.
        ...(sewnOn.washes === 0
          ? [i % 3].map((k) => ({
              ...widthOf(model, design, k + 1),
              seen: measured(widths[k], random),
            }))
          : []),
      ]);
      const { parameters, values } = await fitSewOuts(rows, FREE, PARAMETERS, PRIORS);
      const held = parameters.filter(
        ({ name, interval: [low, high] }) => low <= truth[name].value && truth[name].value <= high,
      );
      for (const { name } of held) inside[name]++;
      if (held.length === FREE.length) all++;
      const off = (at: typeof values) =>
        Math.hypot(...real.map(({ model, grade }) => predicted(gradeOf(model), at) - writtenGrade(grade)));
      if (off(values) < off(atBuiltIn)) better++;
      widest = Math.max(widest, ...parameters.map(({ interval: [low, high] }) => high / low));
    }
  }
  return { logs: shops * logs, inside, all, better, widest };
}

if (process.argv[1] === import.meta.filename) {
  const { values } = parseArgs({
    options: {
      shops: { type: 'string', default: '5' },
      logs: { type: 'string', default: '20' },
      seed: { type: 'string', default: '11' },
    },
  });
  const design = prepared();
  const models = modelsOf(design, SEWN);
  const found = await seededLogs(
    design,
    models,
    Number(values.shops),
    Number(values.logs),
    Number(values.seed),
  );
  for (const name of FREE)
    console.log(`${name.padEnd(12)} inside its interval in ${found.inside[name]} of ${found.logs}`);
  console.log(
    `all at once in ${found.all}; predicted better than before in ${found.better}; widest interval ${found.widest.toFixed(1)} to 1`,
  );
  if (FREE.some((name) => found.inside[name] < 0.9 * found.logs)) process.exitCode = 1;
}
