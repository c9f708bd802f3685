import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { WRITING_LINES, type WritingLine, wordsOf, writersShop } from '../cli/writing-lines.js';
import { Needle } from '../report/little-design.js';
import { type Ended, undisturbed } from './process.js';

/** What lies under the name of every target that is there before a run. */
export const OLD = 'what was there before\n';
export const TEMPORARY = /^\.lieflat-.*\.part$/;

/** A line, what it writes where nothing disturbs it, and how long that takes. */
export interface Undisturbed {
  line: WritingLine;
  ms: number;
  said: Ended;
  /** Content of each target, {@link settled}. */
  whole: ReadonlyMap<string, string>;
}

/** A folder in which every line of {@link WRITING_LINES} runs, with enough designs in it that a batch takes a while and is worth threads. */
export class Scene {
  readonly folder = mkdtempSync(join(tmpdir(), 'kills-'));
  private readonly inputs: ReadonlyMap<string, string>;

  /** @param designs that a batch works through, besides the few of the shop */
  constructor(
    readonly program: string,
    designs: number,
  ) {
    writersShop(this.folder);
    for (let n = 0; n < designs; n++) writeFileSync(this.at(`orders/a-${n}.dst`), lettering(n));
    this.inputs = this.contents();
  }

  at(name: string): string {
    return join(this.folder, name);
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Every file of the folder and under it, by name. */
  contents(): Map<string, string> {
    return new Map(
      readdirSync(this.folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name))
        .map((path) => [path.slice(this.folder.length + 1), readFileSync(path, 'latin1')]),
    );
  }

  /** Names of inputs that are not what they were. */
  spoiledInputs(now: ReadonlyMap<string, string>): string[] {
    return [...this.inputs].filter(([name, text]) => now.get(name) !== text).map(([name]) => name);
  }

  /** Takes away all but the inputs, and puts an old file in the place of each target if one is to be there. */
  putBack({ writes }: WritingLine, there: boolean): void {
    for (const name of this.contents().keys()) if (!this.inputs.has(name)) rmSync(this.at(name));
    if (there) for (const name of Object.values(writes)) writeFileSync(this.at(name), OLD);
  }

  /** Runs every line without disturbance, twice: what does not come out the same cannot be held against anything. */
  async measure(lines: readonly WritingLine[] = WRITING_LINES): Promise<Undisturbed[]> {
    const measured: Undisturbed[] = [];
    for (const line of lines) {
      const [first, second] = [await this.run(line), await this.run(line)];
      for (const [name, text] of first.whole)
        if (second.whole.get(name) !== text) throw new Error(`${name} comes out differently each time`);
      measured.push({ line, ...second, ms: Math.min(first.ms, second.ms) });
    }
    return measured;
  }

  private async run(line: WritingLine): Promise<Omit<Undisturbed, 'line'>> {
    this.putBack(line, false);
    const start = performance.now();
    const said = await undisturbed(this.program, wordsOf(line, false), this.folder);
    const ms = performance.now() - start;
    if (said.code !== 0) throw new Error(`${wordsOf(line, false).join(' ')}: exit ${said.code}, ${said.err}`);
    const now = this.contents();
    const whole = Object.values(line.writes).map((name) => [name, settled(name, now.get(name)!)] as const);
    return { ms, said, whole: new Map(whole) };
  }
}

/** A batch writes its rows as they are finished: which comes first is nobody's concern. */
export function settled(name: string, text: string): string {
  if (!/^[cr]\.csv$|\.jsonl$/.test(name)) return text;
  return text.split('\n').sort().join('\n');
}

/** A design of its own content that takes a moment to vet. */
function lettering(n: number): Uint8Array {
  const needle = new Needle();
  for (let i = 0; i < 16; i++)
    needle.column((i % 8) * 8, Math.floor(i / 8) * 14, {
      width: 3 + (n % 10) / 10,
      height: 10 + Math.floor(n / 10) / 2,
    });
  return encodeDst(needle.end());
}
