import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { Needle } from '../report/little-design.js';
import { lieflat, type Ran, shopFolder } from './at-a-terminal.js';

/** Runs a script in a page, a formula in a spreadsheet, colours and turned letters on a terminal, a second line anywhere. */
export const HARM =
  '=cmd|x"><img src=x onerror=alert(1)><svg onload=alert(2)><script>alert(3)<!--&#60;\u001b[31m\u009b31m\u202egnp\u2028\u0007\r\n\tend';

/** The same as the name of a color: a list has them between commas. */
const HARMFUL_COLOR = HARM.replaceAll(',', '');

/** A shop whose every name does harm: files, folders, header fields, materials, places. */
export function hostileShop() {
  const { folder, at } = shopFolder();
  // A slash parts folders, so this is a folder whose name and its file's make a whole script element.
  const inner = '<script>alert(4)<';
  mkdirSync(at(inner));
  const column = new Needle().column(0, 0, { width: 8, height: 5, underlay: 'zigzag' }).end();
  const bytes = encodeDst({ ...column, header: [{ key: 'AU', value: '<script>alert(5)', byte: 0 }] });
  const put = (text: string, offset: number): void => bytes.set(Buffer.from(text, 'latin1'), offset);
  // In place of the label and of the record count, each the size of what it replaces.
  put('LA:<script>\u009b31m\u00ad=', 0);
  put('ST:=\u009b1m+1', 20);
  const design = join(inner, `script>${HARM}.dst`);
  writeFileSync(at(design), bytes);
  writeFileSync(at('other.dst'), bytes);
  const table = join(inner, `${HARM}.csv`);
  writeFileSync(
    at(table),
    `x_mm,y_mm,kind,thread,${HARM.replace(/["\r\n,]/g, '')}\n0,0,stitch,0,=1\n1,1,<script>,0,1\n`,
  );
  const onFabric = { name: HARM };
  writeFileSync(
    at('shop.json'),
    JSON.stringify({
      threadColors: { [HARMFUL_COLOR]: 'navy' },
      places: { 'left-chest': { name: HARM, widthMm: 5, heightMm: 5 } },
      catalogue: {
        fabrics: { 'pique-knit': { ...onFabric, mass: { value: 200, basis: HARM } } },
        sheets: { 'cutaway-2.5oz': onFabric },
        threads: { 'polyester-40': onFabric },
      },
    }),
  );
  writeFileSync(at('wrong.json'), JSON.stringify({ [HARM]: 1 }));
  return { folder, at, design, table };
}

/** A command line by what it prints or writes. */
interface Said {
  args: string[];
  kind: 'text' | 'json' | 'csv' | 'html' | 'svg';
}

export interface Spoken extends Said, Ran {
  /** What was written to a file, where it was. */
  written: string | null;
}

/** Every command on the hostile shop, in every form that it has. */
export async function everythingSaid(): Promise<Spoken[]> {
  const { folder, at, design, table } = hostileShop();
  const onFabric = ['--fabric', 'pique-knit', '--stack', 'cutaway-2.5oz', '--profile', 'shop.json'];
  const out = (name: string): string[] => ['-o', `${HARM}${name}`];
  const lines: Said[] = [
    {
      kind: 'text',
      args: ['vet', design, 'other.dst', '--profile', 'shop.json', '--place', 'left-chest', '--objects'],
    },

    { kind: 'text', args: ['vet', `${HARM}.dst`] },
    { kind: 'text', args: ['vet', table] },
    { kind: 'text', args: ['vet', design, '--profile', 'wrong.json'] },
    { kind: 'text', args: ['vet', design, '--place', HARM] },
    { kind: 'text', args: ['vet', design, `--${HARM.slice(1)}`] },
    { kind: 'text', args: [HARM] },
    { kind: 'json', args: ['vet', design, '--format', 'json', '--profile', 'shop.json'] },
    { kind: 'json', args: ['vet', design, '--format', 'jsonl'] },
    { kind: 'csv', args: ['vet', design, '--format', 'csv'] },
    // Advice is free to choose its backing: where there is little to choose from it is soon found.
    {
      kind: 'html',
      args: [
        'vet',
        design,
        '--format',
        'html',
        '--fabric',
        'sheer-linen',
        '--profile',
        'shop.json',
        ...out('.html'),
      ],
    },
    { kind: 'text', args: ['vet', design, '--shard', '1/1', '--format', 'jsonl', ...out('.jsonl')] },
    { kind: 'text', args: ['summary', `${HARM}.jsonl`] },
    { kind: 'html', args: ['summary', `${HARM}.jsonl`, ...out('s.html')] },
    { kind: 'text', args: ['columns', design, ...onFabric] },
    { kind: 'csv', args: ['columns', design, '--format', 'csv', ...onFabric] },
    { kind: 'text', args: ['pucker', design, ...onFabric] },
    { kind: 'svg', args: ['pucker', design, ...onFabric, '--map', `${HARM}map.svg`] },
    { kind: 'text', args: ['pucker', design, ...onFabric, '--stack', 'cutaway-3oz'] },
    { kind: 'text', args: ['advise', design, ...onFabric] },
    { kind: 'html', args: ['advise', design, ...onFabric, '--format', 'html', ...out('a.html')] },
    { kind: 'text', args: ['compare', design, 'other.dst', ...onFabric] },
    { kind: 'html', args: ['card', design, ...onFabric, '--place', 'left-chest', ...out('c.html')] },
    {
      kind: 'html',
      args: [
        ...['card', design, ...onFabric, '--threads', HARMFUL_COLOR, '--order', HARM, '--customer', HARM],
        ...['--garment-color', HARM, '--due', HARM, '--remarks', HARM, ...out('o.html')],
      ],
    },
    {
      kind: 'html',
      args: ['order', design, ...onFabric.slice(0, 4), '--profile', 'shop.json', '--out-dir', 'done'],
    },
    { kind: 'text', args: ['reply', design, '--threads', HARMFUL_COLOR, '--profile', 'shop.json'] },
    { kind: 'html', args: ['reply', design, ...onFabric, ...out('r.html')] },
    { kind: 'svg', args: ['draw', design, '--by', 'risk', ...onFabric, ...out('.svg')] },
    {
      kind: 'svg',
      args: ['proof', design, '--threads', HARMFUL_COLOR, '--profile', 'shop.json', ...out('p.svg')],
    },
    { kind: 'html', args: ['proof', design, ...onFabric, ...out('p.html')] },
    { kind: 'text', args: ['relay', design, '--dry-run', ...onFabric] },
    { kind: 'svg', args: ['resew', design, '--dry-run', '--map', `${HARM}holes.svg`] },
    { kind: 'text', args: ['convert', design, ...out('.csv')] },
    { kind: 'text', args: ['catalog', '--all', '--profile', 'shop.json'] },
    { kind: 'text', args: ['catalog', '--profile', 'shop.json'] },
    { kind: 'text', args: ['catalog', HARM] },
  ];
  const before = new Set(readdirSync(folder));
  const spoken: Spoken[] = [];
  for (const line of lines) {
    const ran = await lieflat(line.args, { cwd: folder });
    const made = readdirSync(folder).find((name) => !before.has(name));
    if (made !== undefined) before.add(made);
    // An order is written into a folder.
    const file = made === 'done' ? join(made, 'order.html') : made;
    spoken.push({ ...line, ...ran, written: file === undefined ? null : readFileSync(at(file), 'utf8') });
  }
  return spoken;
}
