/** What a command line finds in its folder and says in its options, made as it is asked for. */

import { LOG_COLUMNS } from '../../../lib/calibrate/log-columns.js';
import { encodeDst } from '../../../lib/format/dst-encode.js';
import { sha256 } from '../../../lib/io/read-file.js';
import { CATALOGUE } from '../../../lib/materials/catalogue.js';
import { HOOP_FIELDS, PLACES } from '../../../lib/materials/places.js';
import type { Random } from '../../generators/random.js';
import { Needle } from '../../report/little-design.js';
import { inputOf } from '../inputs.js';
import { designFile, type Most } from './designs.js';
import { fileName, oddText } from './names.js';
import { bytesOf, type Content, contentOf } from './trial.js';

/** Stands where a value is due and is none, or one that few expect. */
const ODD_VALUES = [
  '',
  ' ',
  '0',
  '-1',
  '1e999',
  'NaN',
  'Infinity',
  '0x10',
  '١',
  '__proto__',
  'constructor',
  '-',
  'w'.repeat(300),
];

const FABRICS = Object.keys(CATALOGUE.fabrics);
const SHEETS = Object.keys(CATALOGUE.sheets);
const THREADS = Object.keys(CATALOGUE.threads);

export class Scene {
  readonly files: Record<string, Content> = {};
  /** How odd the names of this scene are, 0 to 1. */
  private readonly oddness: number;
  stdin: string | undefined;

  constructor(
    readonly random: Random,
    private readonly most: Most,
  ) {
    this.oddness = random.pick([0, 0, 0.5, 1]);
  }

  put(ending: string, content: Content, folder = ''): string {
    let name = folder + fileName(this.random, ending, this.oddness);
    while (name in this.files)
      name = `${folder}${Object.keys(this.files).length}${name.slice(folder.length)}`;
    this.files[name] = content;
    return name;
  }

  /** A name for something to write: mostly a new one, now and then one that is there. */
  target(endings: readonly string[]): string {
    const { random } = this;
    const there = Object.keys(this.files);
    if (there.length > 0 && random.chance(0.03)) return random.pick(there);
    if (random.chance(0.02))
      return random.pick(['', '.', '/', 'nowhere/out.html', '-', 'con', `x${oddText(random)}`]);
    let name = fileName(random, random.pick(endings), this.oddness);
    while (name in this.files) name = `0${name}`;
    return name;
  }

  /** A word for a design: nearly always one that is there. */
  design(): string {
    const { random } = this;
    if (random.chance(0.02)) return random.pick([fileName(random, '.dst', 1), '.', '', 'nowhere/']);
    const { ending, bytes } = designFile(
      random,
      random.chance(1 / 3) ? { ...this.most, stitches: 12 } : this.most,
    );
    const word = this.put(ending, contentOf(bytes));
    // What begins as an option is given by its way.
    return word.startsWith('-') && random.chance(0.9) ? `./${word}` : word;
  }

  /** A design that puckers: one wide column on heavy underlay. */
  private column(): string {
    const { random } = this;
    const size = { width: random.range(4, 9), height: random.range(6, 14), underlay: 'zigzag' as const };
    return this.put('.dst', contentOf(encodeDst(new Needle().column(0, 0, size).end())));
  }

  /** An order of a few lines, some of them wrong. */
  orderTable(): string {
    const { random } = this;
    const cell = (text: string): string =>
      random.chance(0.05) ? oddText(random).replace(/["\n\r,]/g, '') : text;
    const lines = Array.from({ length: random.int(0, 2) }, () =>
      [
        cell(this.design()),
        cell(random.pick(['tote', 'denim', 'cap', 'zeppelin', ''])),
        cell(random.pick(['1', '12', '0', 'x', ''])),
        cell(random.pick(['left chest', 'cap-front', 'roof', ''])),
        cell(random.pick(['navy', '"navy, white"', 'blurple', ''])),
      ].join(','),
    );
    return this.put('.csv', ['file,garment,quantity,place,threads', ...lines].join('\n'));
  }

  /** Designs in a folder, which stands for them. */
  folder(): string {
    const { random } = this;
    const folder = `${fileName(random, '', this.oddness)}/`;
    for (let n = random.int(0, 4); n > 0; n--) {
      const { ending, bytes } = designFile(random, this.most);
      this.put(random.chance(0.95) ? ending : '.txt', contentOf(bytes), folder);
    }
    // A folder with nothing in it is made by what lies in it.
    if (Object.keys(this.files).length === 0) this.put('.md', 'notes', folder);
    return folder;
  }

  /** A list of paths on standard input. */
  list(): string {
    const { random } = this;
    const words = Array.from({ length: random.int(0, 3) }, () => this.design());
    this.stdin = words.join(random.pick(['\n', '\r\n', '\0'])) + random.pick(['', '\n', '\0']);
    return '-';
  }

  profile(): string {
    return this.put('.json', contentOf(inputOf(this.random.int(0, 1e9), 'profile').bytes));
  }

  /** An earlier report in lines, some of them none. */
  report(): string {
    const { random } = this;
    const designs = Object.values(this.files);
    const line = (): string => {
      const sha = designs.length > 0 ? sha256(bytesOf(random.pick(designs))) : '0'.repeat(64);
      return random.pick<() => string>([
        () =>
          JSON.stringify({
            schema: 'lieflat/vet@1',
            file: { path: oddText(random), sha256: sha },
            settings: 'x',
          }),
        () => JSON.stringify({ schema: 'lieflat/vet@1', file: { path: 'a.dst', sha256: sha } }),
        () => JSON.stringify({ stopped: { done: random.int(0, 9), of: random.int(0, 9) } }),
        () =>
          random.pick([
            'null',
            '{}',
            '[]',
            '7',
            '"x"',
            '{"schema":"lieflat/vet@1"}',
            '',
            ' ',
            '[[[[',
            '{"a":',
            oddText(random),
          ]),
        () => '{"schema":"lieflat/vet@1","file":null}',
        () => '['.repeat(3000),
      ])();
    };
    const text = Array.from({ length: random.int(0, 6) }, line).join(random.pick(['\n', '\n', '\r\n']));
    const bytes = Buffer.from(text + random.pick(['', '\n']));
    if (bytes.length > 0 && random.chance(0.1)) bytes[random.int(0, bytes.length - 1)] = random.int(0, 255);
    return this.put('.jsonl', contentOf(bytes));
  }

  /** A log of sew-outs of designs that are mostly there; enough rows to carry a fit now and then. */
  log(): string {
    const { random } = this;
    // One wrong row is what is told of the whole log.
    const sound = random.chance(0.6);
    const designs = Array.from({ length: random.int(1, 2) }, () =>
      sound || random.chance(0.5) ? this.column() : this.design(),
    );
    const fabrics = Array.from({ length: random.int(1, 3) }, () =>
      random.pick([...FABRICS, 'performance-knit']),
    );
    const stacks = Array.from({ length: random.int(1, 3) }, () =>
      random.chance(0.3) ? 'none' : this.stack(),
    );
    const oddness = sound ? 0 : random.pick([0, 0.02, 0.2]);
    const cells: Record<(typeof LOG_COLUMNS)[number], () => string> = {
      file: () => random.pick(designs),
      fabric: () => random.pick(fabrics),
      stack: () => random.pick(stacks),
      underlay: () => random.pick(['', 'as-is', 'as-is', 'as-is', 'fill:1', sound ? '' : 'center-run:1 2']),
      washes: () => random.pick(['', '0', '0', '8']),
      grade: () => random.pick(['1', '2', '2.5', '3', '3.5', '4', '4.5', '5', '']),
      remarks: () => random.pick(['', 'Ida', oddText(random)]),
    };
    const columns = sound || random.chance(0.9) ? LOG_COLUMNS : LOG_COLUMNS.slice(random.int(0, 2));
    const delimiter = random.pick([',', ',', ',', ';', '\t']);
    const quoted = (cell: string): string =>
      /["\r\n,;\t]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
    const rows = Array.from({ length: sound ? random.int(8, 16) : random.int(0, 10) }, () =>
      columns.map((column) => quoted(random.chance(oddness) ? random.pick(ODD_VALUES) : cells[column]())),
    );
    const text = [columns, ...rows].map((row) => row.join(delimiter)).join(random.pick(['\n', '\r\n']));
    const bytes = Buffer.from(text);
    if (!sound && random.chance(0.1)) bytes[random.int(0, bytes.length - 1)] = random.int(0, 255);
    return this.put('.csv', contentOf(bytes));
  }

  fabric(): string {
    const { random } = this;
    if (random.chance(0.9)) return random.pick(FABRICS);
    return random.pick([
      'ask',
      'ask=some,medium,plain,washable',
      'ask=none',
      'ask=',
      'Hoodies',
      'towel or tote',
    ]);
  }

  thread(): string {
    return this.random.pick(THREADS);
  }

  stack(): string {
    const { random } = this;
    if (random.chance(0.15)) return 'none';
    const sheet = (): string =>
      random.pick(SHEETS) + (random.chance(0.3) ? `@${random.pick([0, 45, 90, 180, 22.5])}` : '');
    return Array.from({ length: random.pick([1, 1, 1, 2, 3, 9]) }, sheet).join('+');
  }

  place(): string {
    return this.random.pick(PLACES).id;
  }

  hoop(): string {
    const { random } = this;
    const side = (): string =>
      random.pick(['100', '100', '4', '130', '40.5', '250', '180', random.pick(['0', '1', '9999', '1e3'])]);
    if (random.chance(0.4)) return random.pick(HOOP_FIELDS).id;
    return `${side()}${random.pick(['x', 'x', 'x', 'x', '×', '*'])}${side()}${random.pick(['', 'mm', 'in'])}`;
  }

  length(): string {
    const { random } = this;
    return `${random.pick(['4', '0.3', '12.', '.5', '1', '2.5', '0.16', random.pick(['0', '1e3', '99999'])])}${random.pick(['', 'mm', 'in', ' mm'])}`;
  }

  percent(): string {
    const { random } = this;
    const plain = `${random.pick(['0', '3.3', '5', '5', '12', '25'])}${random.pick(['', '%', '%'])}`;
    return random.chance(0.9) ? plain : random.pick(['0.05', '1.05', '26%', '-1', '1%%', '0.3%']);
  }

  odd(): string {
    return this.random.chance(0.3) ? oddText(this.random) : this.random.pick(ODD_VALUES);
  }
}
