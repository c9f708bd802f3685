/** How every command of the program's own table is entered; a command or an option without its line here fails a test. */
import { COMMANDS } from '../../../cli/commands.js';
import { everywhere, type Option } from '../../../cli/options.js';
import { Random } from '../../generators/random.js';
import type { Most } from './designs.js';
import { Scene } from './scene.js';
import type { Trial } from './trial.js';

export interface Entry {
  /** What comes after the command's name. */
  words: (scene: Scene) => string[];
  /** Stitches of a design at most; fewer where the command works long on each. */
  most: number;
  /** Endings of what `-o` writes. */
  out: readonly string[];
  /** Whether an option can stand beside those said before it; nine times in ten it is left out where it cannot. */
  fits?: (option: string, before: ReadonlyMap<string, string>) => boolean;
  /** Options of which the second mostly goes with the first. */
  together?: readonly (readonly [string, string])[];
}

const one = (scene: Scene): string[] => [scene.design()];
const several = (scene: Scene): string[] => {
  const way = scene.random.next();
  if (way < 0.6) return [scene.design()];
  if (way < 0.8) return Array.from({ length: scene.random.int(2, 4) }, () => scene.design());
  if (way < 0.92) return [scene.folder()];
  if (way < 0.96) return [scene.design(), '*.dst'];
  return [scene.list()];
};

/** What works long on each mostly gets one; several go into a folder where they are written. */
const fewOrOne = (scene: Scene): string[] => {
  if (scene.random.next() < 0.85) return [scene.design()];
  const words = scene.random.chance(0.8) ? [scene.design(), scene.design()] : [scene.folder()];
  return scene.random.chance(0.6) ? [...words, '--out-dir', '.'] : words;
};

/** Ways of saying how much larger, of which one is enough; `y` goes with `x`. */
const SCALES = ['scale', 'x', 'y', 'find'];

/** Most designs are so small where the pucker is worked out: about anything larger there are four times as many cells of fabric. */
const MOST_ON_FABRIC: Most = { stitches: 80, mm: 27 };

export const ENTRIES: Readonly<Record<string, Entry>> = {
  vet: { words: several, most: 400, out: ['.txt', '.json', '.jsonl', '.csv', '.html'] },
  columns: { words: several, most: 400, out: ['.txt', '.json', '.csv'] },
  summary: { words: (scene) => [scene.report()], most: 90, out: ['.txt', '.json', '.html'] },
  pucker: { words: one, most: 90, out: ['.txt', '.json'] },
  advise: { words: fewOrOne, most: 70, out: ['.txt', '.json', '.html'] },
  relay: { words: fewOrOne, most: 160, out: ['.dst', '.csv'] },
  resew: {
    words: fewOrOne,
    most: 100,
    out: ['.dst', '.csv'],
    fits: (option, before) => !SCALES.includes(option) || !SCALES.some((other) => before.has(other)),
    together: [['x', 'y']],
  },
  compare: { words: (scene) => [scene.design(), scene.design()], most: 110, out: ['.txt', '.json'] },
  card: { words: fewOrOne, most: 70, out: ['.html'] },
  order: {
    words: (scene) => (scene.random.chance(0.5) ? several(scene) : [scene.orderTable()]),
    most: 60,
    out: [],
  },
  draw: {
    words: one,
    most: 300,
    out: ['.svg', '.png'],
    fits: (option, before) => option !== 'pixels' || /\.png$/i.test(before.get('out') ?? ''),
  },
  reply: { words: one, most: 90, out: ['.txt', '.json', '.html'] },
  proof: { words: one, most: 70, out: ['.svg', '.png', '.html'] },
  page: { words: () => [], most: 1, out: ['.html'] },
  convert: { words: one, most: 900, out: ['.dst', '.csv'] },
  calibrate: { words: (scene) => [scene.log()], most: 90, out: ['.json'] },
  profile: { words: () => [], most: 1, out: ['.json', '.txt'] },
  catalog: {
    words: ({ random }) => {
      const topic = random.pick(['fabrics', 'sheets', 'toppings', 'threads', 'needles', 'places', 'hoops']);
      const id = random.pick([
        'pique-knit',
        'cutaway-2.5oz',
        'soluble-film',
        'polyester-40',
        'left-chest',
        'polo',
      ]);
      return [[], [topic], [topic, id]][random.int(0, 2)];
    },
    most: 1,
    out: ['.txt', '.json'],
  },
};

/** A value of each option that takes one of the user's own; what is chosen from a list or only switched on needs none. */
export const VALUES: Readonly<Record<string, (scene: Scene, entry: Entry) => string>> = {
  profile: (scene) => scene.profile(),
  'max-bytes': ({ random }) => random.pick(['5MB', '1', '600', '2kB', '0.5', '9GB']),
  // What runs out of time depends on the machine: none of these does.
  'max-seconds': ({ random }) => random.pick(['600', '900s', '0', '-1', '90000']),
  'max-memory': ({ random }) => random.pick(['2GB', '4GB', '1', '50kB', '1MB', '0']),
  'out-dir': ({ random }) => random.pick(['out', '.', 'a/b', '..', '']),
  place: (scene) => scene.place(),
  hoop: (scene) => scene.hoop(),
  fabric: (scene) => scene.fabric(),
  grain: ({ random }) => random.pick(['0', '90', '45', '-180', '180', '33.3', '181']),
  'hoop-stretch': ({ random }) => random.pick(['0', '5', '5%', '50', '51', '0.01']),
  'after-wash': ({ random }) => random.pick(['0', '1', '8', '200', '1000000', '1.5']),
  thread: (scene) => scene.thread(),
  stack: (scene) => scene.stack(),
  workers: ({ random }) => random.pick(['1', '2', '8', '64']),
  since: (scene) => scene.report(),
  shard: ({ random }) => random.pick(['1/1', '1/2', '2/2', '0/4', '5/4', '3', '1/10000']),
  summary: (scene) => scene.target(['.html', '.json', '.txt']),
  out: (scene, { out }) => scene.target(out),
  over: (scene) => scene.length(),
  grades: (scene) => scene.orderTable(),
  quantity: ({ random }) => random.pick(['1', '24', '1000000', '0', '1.5', '1e3', '2000000']),
  threads: ({ random }) =>
    random.pick(['navy', 'navy, #c8102e,white', '3: navy, white', 'bleu', '', ',', '0f0']),
  'garment-color': ({ random }) => random.pick(['light gray', '#000', 'ink', '']),
  relaid: (scene) => scene.design(),
  order: ({ random }) => random.pick(['4711', '', 'A-1 / 2']),
  customer: ({ random }) => random.pick(['the ball club', '']),
  due: ({ random }) => random.pick(['December 3', '']),
  remarks: ({ random }) => random.pick(['pockets sewn shut, mind the seam', '']),
  map: (scene) => scene.target(['.svg', '.svg', '.png']),
  objects: ({ random }) => random.pick(['1', '1,2', '1-4', '3-1', '0', '1-99999', ' 2 , 3 ']),
  is: ({ random }) =>
    random.pick([
      '1=run',
      '2=satin',
      '1=fill',
      '3=underlay',
      '1-3=top',
      '1=found',
      '2=net,1=edging',
      '999=run',
      '1=cloud',
      '=',
    ]),
  scale: (scene) => scene.percent(),
  x: (scene) => scene.percent(),
  y: (scene) => scene.percent(),
  slack: (scene) => scene.length(),
  offset: ({ random }) => random.pick(['0.3,-0.2', '0,0', '50,50', '-1.5,2', '51,0', '1', '0.01,']),
  pixels: ({ random }) => random.pick(['16', '200', '800', '0', '15', '8001', '20.5']),
};

/** What needs a fabric. */
const ON_FABRIC = ['grain', 'hoop-stretch', 'after-wash', 'thread', 'stack'];

/** How often an option is given, where not one time in five. */
const GIVEN: Readonly<Record<string, number>> = {
  format: 0.65,
  fabric: 0.2,
  place: 0.25,
  hoop: 0.2,
  profile: 0.12,
  out: 0.35,
  force: 0.4,
  watch: 0.004,
  'dry-run': 0.3,
  is: 0.06,
  'max-bytes': 0.04,
  'max-seconds': 0.03,
  'max-memory': 0.03,
  'out-dir': 0.08,
  grades: 0.05,
  debug: 0,
  'keep-threads': 0.04,
  x: 0.15,
  y: 0.02,
  workers: 0.1,
  init: 0.3,
  schema: 0.15,
  since: 0.15,
  summary: 0.15,
  pixels: 0.15,
  find: 0.25,
  scale: 0.4,
  map: 0.4,
};

/** The trial of one seed for one command: a function of both alone. */
export function trialOf(command: string, seed: number): Trial {
  const random = new Random(seed, command);
  const entry = ENTRIES[command];
  const options = Object.entries<Option>({ ...everywhere, ...COMMANDS[command].options });
  const onFabric = options.some(([name]) => name === 'fabric') && random.chance(fabricShare(options));
  const scene = new Scene(random, {
    stitches: onFabric ? Math.min(MOST_ON_FABRIC.stitches, entry.most) : entry.most,
    mm: onFabric ? MOST_ON_FABRIC.mm : Number.POSITIVE_INFINITY,
  });
  if (random.chance(0.02)) scene.files['lieflat.config.json'] = scene.files[scene.profile()];
  const words = entry.words(scene);
  const said = optionsOf(options, onFabric, entry, scene);
  const argv = [command, ...(random.chance(0.9) ? [...words, ...said] : [...said, ...words])];
  return {
    argv: random.chance(0.01) ? [...argv, scene.odd()] : argv,
    files: scene.files,
    ...(scene.stdin !== undefined && { stdin: scene.stdin }),
    ...(random.chance(0.1) && { columns: random.pick([0, 20, 40, 80, 200]) }),
    // Watching goes on until it is stopped.
    ...((random.chance(0.01) || said.includes('--watch')) && { stop: true }),
  };
}

type Named = readonly [name: string, option: Option];

/** How often a fabric is named. */
const fabricShare = (options: readonly Named[]): number =>
  options.some(([name, { required }]) => name === 'fabric' && required) ? 0.98 : GIVEN.fabric;

function optionsOf(options: readonly Named[], onFabric: boolean, entry: Entry, scene: Scene): string[] {
  const { random } = scene;
  const share = (name: string, { required }: Option): number => {
    if (name === 'fabric') return onFabric ? 1 : 0;
    if (ON_FABRIC.includes(name)) return onFabric ? 0.3 : 0.01;
    return required ? 0.98 : (GIVEN[name] ?? 0.2);
  };
  const before = new Map<string, string>();
  const said: string[] = [];
  const say = (name: string, option: Option): void => {
    const value = option.type === 'flag' ? '' : givenTo(scene, entry, name, option.choices);
    before.set(name, value);
    said.push(...(option.type === 'flag' ? [`--${name}`] : spoken(random, name, value)));
  };
  for (const [name, option] of options) {
    if (!random.chance(share(name, option))) continue;
    if (entry.fits?.(name, before) === false && random.chance(0.95)) continue;
    say(name, option);
    if (option.type === 'values' && random.chance(0.4)) say(name, option);
  }
  const partner = entry.together?.find(([one]) => before.has(one))?.[1];
  if (partner !== undefined && !before.has(partner) && random.chance(0.9))
    say(partner, { type: 'value', describe: '' });
  // A command that needs a file to write says so in one line, however often it is tried.
  if (before.has('out') || !options.some(([name]) => name === 'dry-run') || random.chance(0.05)) return said;
  return [...said, ...(random.chance(0.5) ? ['--dry-run'] : ['-o', scene.target(entry.out)])];
}

function givenTo(scene: Scene, entry: Entry, name: string, choices?: readonly string[]): string {
  const { random } = scene;
  if (random.chance(0.015)) return scene.odd();
  return choices ? random.pick(choices) : VALUES[name](scene, entry);
}

const spoken = (random: Random, name: string, value: string): string[] =>
  value.startsWith('-') || random.chance(0.1)
    ? [`--${name}=${value}`]
    : [name === 'out' && random.chance(0.5) ? '-o' : `--${name}`, value];
