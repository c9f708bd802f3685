/**
 * What the matrix runs of each command, in a folder of the samples: all that it reads and writes, and every library that is loaded
 * only when asked for. The first line of each is what a short matrix runs.
 */
export const COMMAND_LINES: Readonly<Record<string, readonly string[]>> = {
  vet: [
    'vet crest.dst --place left-chest --fail-on warn',
    'vet . --format jsonl --workers 2 --ordered --fail-on never -o all.jsonl --summary all.json',
    'vet . --format html -o all.html --summary all.txt',
    'vet name-drop.dst --fabric pique-knit --format json --profile shop.jsonc',
    'vet *.dst gone.dst --format csv',
    'vet . --shard 2/3 --format jsonl --fail-on never -o part-2.jsonl',
    'vet noise.dst',
    'vet crest.dst --fabrik denim',
  ],
  summary: [
    'summary before.jsonl -o archive.html',
    'summary before.jsonl --format json',
    'summary noise.dst',
  ],
  columns: ['columns incoming.dst --over 4', 'columns . --format csv -o columns.csv'],
  pucker: [
    'pucker name-drop.dst --fabric performance-knit-thin --map wrinkles.png',
    'pucker name-drop.dst --fabric denim --stack none --stack cutaway-3oz --map wrinkles.svg --format json',
  ],
  advise: [
    'advise name-drop.dst --fabric performance-knit --all',
    'advise name-drop.dst crest.dst --fabric canvas-tote --stack tearaway-1.8oz-firm --format json',
    'advise name-drop.dst --fabric pique-knit --after-wash 5 --quantity 24 --format html -o plans.html',
  ],
  relay: [
    'relay incoming.dst -o relaid.csv --format json',
    'relay incoming.dst name-drop.dst --out-dir written',
    'relay name-drop.dst -o relaid.dst --fabric performance-knit',
  ],
  resew: [
    'resew name-drop.dst --mode widen --scale 5% -o again.dst --map holes.png',
    'resew name-drop.dst --find --dry-run --format json',
  ],
  compare: ['compare name-drop.dst incoming.dst', 'compare name-drop.dst name-drop.csv --format json'],
  reply: [
    'reply incoming.dst -o reply.html --threads navy,white',
    'reply name-drop.dst --fabric polo --paper a4',
    'reply incoming.dst --format json',
  ],
  card: [
    'card name-drop.dst --fabric performance-knit -o card.html',
    'card towel-monogram.dst --fabric terry-towel --cost --paper a4 -o card.html',
    'card cap-front.dst --fabric cap --threads navy,white --order 4711 --quantity 24 --language es -o cap.html',
  ],
  order: [
    'order name-drop.dst --fabric canvas-tote --quantity 12 --out-dir done',
    'order . --fabric polo --format json --out-dir all',
  ],
  draw: ['draw crest.dst --by width -o crest.png', 'draw incoming.dst --by density -o incoming.svg'],
  proof: [
    'proof crest.dst -o crest.png --threads navy,gold,white --garment-color gray',
    'proof name-drop.dst -o name.svg --fabric performance-knit-thin --stack cutaway-2.5oz',
    'proof name-drop.dst -o name.html',
  ],
  page: ['page -o lieflat.html'],
  convert: ['convert name-drop.csv -o name.dst', 'convert crest.dst -o crest.csv'],
  calibrate: ['calibrate sew-outs.csv -o fitted.json --rows'],
  profile: [
    'profile --init -o new.json',
    'profile --profile shop.jsonc',
    'profile --schema',
    'profile --profile wrong.json',
  ],
  catalog: ['catalog fabrics pique-knit', 'catalog --all --format json'],
};

/** What is in the folder beside the samples. */
export const OTHER_FILES: Readonly<Record<string, string>> = {
  'noise.dst': 'no stitches in here',
  'before.jsonl': '{"stopped":{"done":0,"of":3}}\n',
  'shop.jsonc':
    '{\n  // what is left out stays as it is\n  "places": {"left-chest": {"widthMm": 90, "heightMm": 90}},\n}\n',
  'wrong.json': '{"fabricks": {}}\n',
};

/** What is asked of the program as a whole. */
export const ALONE = ['--help', '--version', '', 'vett crest.dst', 'completion'];

/**
 * All command lines of the table of commands, each with its help.
 *
 * @param short one a command, no more
 * @throws Error where a command of the table has no line here, or a line here no command
 */
export function commandLines(commands: readonly string[], short: boolean): Map<string, string[]> {
  const missing = commands.filter((name) => !COMMAND_LINES[name]?.length);
  const gone = Object.keys(COMMAND_LINES).filter((name) => !commands.includes(name));
  if (missing.length + gone.length > 0)
    throw new Error(
      `command-lines.ts lacks ${missing.join(', ') || 'none'} and has ${gone.join(', ') || 'none'} too many`,
    );
  const lines = new Map(
    commands.map((name) => {
      const own = COMMAND_LINES[name];
      return [name, short ? own.slice(0, 1) : [...own, `${name} --help`]];
    }),
  );
  return lines.set('(none)', short ? ALONE.slice(0, 2) : ALONE);
}
