/** Time of the pucker model in full solves, in the same run, and how little its mesh matters. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { decodeDesign } from '../../lib/format/decode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { layupOf } from '../../lib/mechanics/layup.js';
import { MESH_OPTIONS } from '../../lib/mechanics/mesh.js';
import { meshDesign } from '../../lib/mechanics/meshed-design.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { puckering } from '../../lib/mechanics/puckering.js';
import { assessFully, prepare } from '../../lib/mechanics/risk.js';
import { settingsOf } from '../../lib/mechanics/settings.js';
import { SHOP } from '../built-in-shop.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { BONDED } from '../mechanics/stacks.js';
import { runCommand } from './command.js';
import { type Figure, once } from './figure.js';

const PLAN = { fabric: 'performance-knit-thin', stack: BONDED };
/** They take seconds each: the best time is steady sooner than that of short work, and the whole bench has ten minutes. */
const RUNS = 2;
const LAYUP = layupOf(CATALOGUE, { ...PLAN, grainDeg: 90 });
const SETTINGS = settingsOf(PARAMETERS);

export function mechanicsFigures(root: URL): Figure[] {
  return [
    ...['name-drop.dst', 'crest.dst'].flatMap(ofSample),
    wholeAdvice('pique-knit'),
    adviceBesidePucker(root),
  ];
}

function ofSample(name: string): Figure[] {
  const preparedOnce = once(async () => {
    const design = await sampleDesign(name);
    return { design, prepared: prepare(design, SHOP.catalogue) };
  });
  const meshes = once(async () => {
    const { design, prepared } = await preparedOnce();
    const finer = meshDesign(design.stitches, design.objects, prepared.thread, prepared.fine.design.hoop, {
      ...MESH_OPTIONS,
      cellMm: prepared.fine.design.mesh.even.cellMm / 2,
    });
    return [prepared.fine.design, finer].map((mesh) => puckering(mesh, LAYUP, SETTINGS));
  });
  const moved = (a: number, b: number) => 100 * Math.abs(a / b - 1);
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  return [
    {
      name: `risk with band and drivers of ${name} / one full solve`,
      target: 3,
      unit: '×',
      measure: async () => detailed((await preparedOnce()).prepared),
    },
    {
      name: `wrinkle height of ${name}, the mesh against one twice as fine`,
      target: 2,
      unit: '%',
      measure: async () => {
        const [usual, half] = await meshes();
        return moved(usual.heightMm, half.heightMm);
      },
    },
    {
      name: `pull-in of ${name}, the mesh against one twice as fine`,
      target: 2,
      unit: '%',
      measure: async () => {
        const [usual, half] = await meshes();
        return moved(mean(usual.narrowingMm), mean(half.narrowingMm));
      },
    },
  ];
}

/** One full solve: sewn, let go and looked at, on the fine mesh, on one setup. */
function fullSolve({ fine }: PreparedDesign): number {
  const start = performance.now();
  puckering(fine.design, LAYUP, SETTINGS, undefined, undefined, undefined, fine);
  return performance.now() - start;
}

/** Time of a risk with band, drivers and maps over that of one full solve. */
function detailed(prepared: PreparedDesign): number {
  let [all, solve] = [Infinity, Infinity];
  for (let run = 0; run < RUNS; run++) {
    const start = performance.now();
    assessFully(prepared, PLAN, SHOP);
    all = Math.min(all, performance.now() - start);
    solve = Math.min(solve, fullSolve(prepared));
  }
  return all / solve;
}

/** Time of all advice on a vetted crest, over that of one full solve. */
function wholeAdvice(fabric: string): Figure {
  return {
    name: `whole advice on the crest, ${fabric} / one full solve`,
    target: 12,
    unit: '×',
    measure: async () => {
      const bytes = readFileSync(new URL('../../samples/crest.dst', import.meta.url));
      const file = { path: 'crest.dst', format: 'dst', bytes: bytes.length, sha256: '0' } as const;
      const vetting = SHOP.vet(await decodeDesign(bytes, 'dst'), { file });
      const prepared = prepare(vetting, SHOP.catalogue);
      const before = fullSolve(prepared);
      const start = performance.now();
      const { search } = SHOP.advise(vetting, { fabric });
      const all = performance.now() - start;
      const solve = Math.min(before, fullSolve(prepared));
      return { value: all / solve, on: `${search.considered.plans} plans` };
    },
  };
}

/** The two commands as a shop runs them, on a name. */
function adviceBesidePucker(root: URL): Figure {
  const name = fileURLToPath(new URL('samples/name-drop.dst', root));
  return {
    name: 'advice on a name, the whole command / pucker with its band',
    target: 1.5,
    unit: '×',
    measure: () => {
      let [advise, pucker] = [Infinity, Infinity];
      for (let run = 0; run < RUNS; run++) {
        const time = (command: string) => runCommand(root, [command, name, '--fabric', PLAN.fabric]).ms;
        advise = Math.min(advise, time('advise'));
        pucker = Math.min(pucker, time('pucker'));
      }
      return advise / pucker;
    },
  };
}
