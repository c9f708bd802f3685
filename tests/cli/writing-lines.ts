import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { COMMANDS } from '../../cli/commands.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { Needle } from '../report/little-design.js';

/** Options that name a file to write. */
const TARGETS = ['out', 'map', 'summary'] as const;
type Target = (typeof TARGETS)[number];

/** A command line that writes. */
export interface WritingLine {
  command: string;
  args: readonly string[];
  /** What it writes, by the option that names it. */
  writes: Readonly<Partial<Record<Target, string>>>;
}

const line = (command: string, args: readonly string[], writes: WritingLine['writes']): WritingLine => ({
  command,
  args,
  writes,
});
const ON_A_FABRIC = ['--fabric', 'canvas-tote', '--stack', 'tearaway-1.8oz-firm'];

/** Every command that writes, with every option that names a file to write. */
export const WRITING_LINES: readonly WritingLine[] = [
  line('vet', ['orders', '--format', 'csv', '--fail-on', 'never'], { out: 'r.csv', summary: 'r.json' }),
  line('vet', ['orders', '--format', 'jsonl', '--fail-on', 'never', '--since', 'before.jsonl'], {
    out: 'r.jsonl',
    summary: 'r.html',
  }),
  line('vet', ['orders/a*.dst', '--format', 'html', '--fail-on', 'never'], {
    out: 'r.html',
    summary: 'r.txt',
  }),
  line('vet', ['orders', '--shard', '1/1', '--format', 'jsonl', '--fail-on', 'never'], { out: 'part.jsonl' }),
  line('summary', ['before.jsonl'], { out: 'archive.html' }),
  line('columns', ['orders', '--format', 'csv'], { out: 'c.csv' }),
  line('pucker', ['a.dst', ...ON_A_FABRIC], { out: 'p.txt', map: 'p.svg' }),
  line('advise', ['a.dst', ...ON_A_FABRIC, '--after-wash', '0', '--format', 'html'], { out: 'a.html' }),
  line('relay', ['wide.dst', '--objects', '1'], { out: 'relaid.dst' }),
  line('resew', ['a.dst'], { out: 'again.dst', map: 'holes.svg' }),
  line('compare', ['a.dst', 'wide.dst'], { out: 'changes.txt' }),
  line('card', ['a.dst', ...ON_A_FABRIC, '--after-wash', '0'], { out: 'card.html' }),
  line('reply', ['a.dst', '--threads', 'navy'], { out: 'reply.html' }),
  line('draw', ['a.dst'], { out: 'a.svg' }),
  line('proof', ['a.dst', '--threads', 'navy'], { out: 'proof.png' }),
  line('draw', ['a.dst', '--pixels', '200'], { out: 'a.png' }),
  line('page', [], { out: 'lieflat.html' }),
  line('convert', ['a.dst'], { out: 'a.csv' }),
  line('calibrate', ['log.csv'], { out: 'shop.json' }),
  line('profile', ['--init'], { out: 'start.json' }),
  line('profile', [], { out: 'profile.txt' }),
  line('catalog', ['fabrics'], { out: 'fabrics.txt' }),
];

/** The words of a line; by `--force` what is there is replaced. */
export const wordsOf = ({ command, args, writes }: WritingLine, force: boolean): string[] => [
  command,
  ...args,
  ...Object.entries(writes).flatMap(([option, name]) => [`--${option}`, name]),
  ...(force ? ['--force'] : []),
];

/** What no line writes though an option of a command names it; a new command that writes has its line above. */
export function unwritten(): string[] {
  return Object.entries(COMMANDS).flatMap(([command, { options }]) =>
    TARGETS.filter(
      (target) =>
        target in options &&
        !WRITING_LINES.some((line) => line.command === command && line.writes[target] !== undefined),
    ).map((target) => `${command} --${target}`),
  );
}

/** A folder in which every line runs: designs small enough to be worked out at once, a log, a profile, an earlier report. */
export function writersShop(folder: string): void {
  const at = (name: string): string => `${folder}/${name}`;
  const small = encodeDst(new Needle().column(0, 0, { width: 5, height: 8, underlay: 'zigzag' }).end());
  writeFileSync(at('a.dst'), small);
  writeFileSync(
    at('wide.dst'),
    encodeDst(
      new Needle()
        .column(0, 0, { width: 9, height: 14, underlay: 'zigzag' })
        .column(14, 0, { width: 3 })
        .end(),
    ),
  );
  mkdirSync(at('orders/more'), { recursive: true });
  copyFileSync(at('a.dst'), at('orders/a1.dst'));
  copyFileSync(at('wide.dst'), at('orders/a2.dst'));
  writeFileSync(at('orders/more/table.csv'), 'x_mm,y_mm,kind\r\n0,0,stitch\r\n2,0,stitch\r\n0,0,end\r\n');
  writeFileSync(at('orders/more/customers.csv'), 'customer,phone\r\nA,1\r\n');
  writeFileSync(at('before.jsonl'), '{"stopped":{"done":0,"of":3}}\n');
  writeFileSync(at('lieflat.config.json'), '{"limits": {"satin-too-narrow": 0.9}}\n');
  // As few fabrics as a fit can be made of, for each is worked out anew at every run; sewn often enough for one.
  const sewn = [
    'pique-knit,cutaway-2.5oz,as-is,0,5',
    'performance-knit,cutaway-2.5oz,as-is,0,4.5',
    'performance-knit-thin,cutaway-2.5oz,as-is,0,4',
    'pique-knit,tearaway-1.8oz-firm,as-is,0,3.5',
  ];
  const rows = [...sewn, ...sewn, ...sewn].map((row) => `a.dst,${row}`);
  writeFileSync(at('log.csv'), ['file,fabric,stack,underlay,washes,grade', ...rows, ''].join('\n'));
}
