import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { factsOf, type JsonReports, readDesignFile, shopOf } from '../../lib/index.js';
import { threadByBlock } from '../../lib/measure/thread-length.js';
import { BUILT_IN_FIGURES } from '../../lib/profile.js';
import { builtProgram } from '../built.js';
import { TEMPORARY } from './scene.js';
import {
  BAD_LINES,
  begun,
  cardsMade,
  differingFiles,
  filesOf,
  gathering,
  layOrder,
  type OrderRun,
  runOrder,
  takeAway,
  writingInto,
} from './whole-order.js';

const SIZES = { good: 90, designs: 12, bad: 10 };
/** Moments of one order, each in the run that goes on from the one before. */
const KILLS = [
  begun,
  cardsMade(5),
  writingInto('proofs', 20),
  cardsMade(45),
  writingInto('cards', 60),
  cardsMade(85),
  gathering,
];
/** More time than all of it takes on a busy machine. */
const TIMEOUT = 3_600_000;

describe(`an order of ${SIZES.good + SIZES.bad} lines, ${SIZES.bad} of them bad`, () => {
  const { folder, lines } = layOrder(SIZES);
  let ended: OrderRun;
  beforeAll(async () => {
    ended = await runOrder(builtProgram(), folder, 'whole');
  }, TIMEOUT);
  afterAll(() => takeAway(folder));
  const report = (): JsonReports['order'] =>
    JSON.parse(readFileSync(join(folder, 'whole/order.json'), 'utf8'));
  const asked = (line: number) => lines.find((one) => one.line === line)!;

  it('does the good ones, names each of the others with what to do, and ends with 2', () => {
    expect(BAD_LINES).toHaveLength(10);
    expect(ended.code).toBe(2);
    const bad = lines.filter((one) => one.bad !== null);
    expect(bad).toHaveLength(SIZES.bad);
    const { lines: done, errors } = report();
    expect(done.map(({ line }) => line)).toEqual(lines.flatMap((one) => (one.bad ? [] : [one.line])));
    expect(done).toHaveLength(SIZES.good);
    expect(errors.map(({ line }) => line)).toEqual(bad.map(({ line }) => line));
    const said = ended.err.split('\n').filter((text) => text.startsWith('lieflat: '));
    expect(said).toHaveLength(SIZES.bad);
    for (const { line, bad: broken } of bad) {
      const [own, ...more] = said.filter((text) => text.startsWith(`lieflat: order.csv: line ${line}: `));
      expect(more).toEqual([]);
      expect(own).toMatch(broken!.told);
      expect(own).toMatch(/; \S.*\S$/);
      const { what, todo } = errors.find((one) => one.line === line)!;
      expect(own).toBe(`lieflat: order.csv: line ${line}: ${what}; ${todo}`);
    }
  });

  it('takes from the shelf what its lines come to', async () => {
    const { lines: done, setups, supplies } = report();
    const shop = shopOf(BUILT_IN_FIGURES);
    const threads = new Map<string | null, number>();
    const sheets = new Map<string, number>();
    let bobbinMm = 0;
    for (const { line, quantity, sewn } of done) {
      expect(quantity).toBe(asked(line).quantity);
      // The thread of the very file that is sewn, read from where the operator takes it.
      const file = await readDesignFile(join(folder, 'whole', sewn));
      const { stitches } = shop.vet(file.design, { file: factsOf(file) });
      const row = readFileSync(join(folder, 'order.csv'), 'utf8').split('\n')[line - 1].split(',');
      for (const [k, { threadMm, bobbinMm: under }] of threadByBlock(
        stitches,
        shop.figures.threadUse,
      ).entries()) {
        const color = k === 0 && row[3] !== '' ? row[3] : null;
        threads.set(color, (threads.get(color) ?? 0) + quantity * threadMm);
        bobbinMm += quantity * under;
      }
      const { stack } = setups.find((setup) => setup.lines.includes(line))!;
      for (const { sheet } of stack) sheets.set(sheet, (sheets.get(sheet) ?? 0) + quantity);
    }
    for (const { color, lengthMm } of supplies.threads)
      expect(lengthMm / threads.get(color)!, `${color}`).toBeCloseTo(1, 4);
    expect(supplies.threads).toHaveLength(threads.size);
    expect(supplies.bobbinMm / bobbinMm).toBeCloseTo(1, 4);
    for (const [sheet, pieces] of sheets) {
      const taken = supplies.sheets.filter((one) => one.sheet === sheet);
      expect(
        taken.reduce((sum, one) => sum + one.pieces, 0),
        sheet,
      ).toBe(pieces);
    }
    expect(new Set(supplies.sheets.map(({ sheet }) => sheet))).toEqual(new Set(sheets.keys()));
  });

  it('comes to the same byte for byte when it is killed and run again', { timeout: TIMEOUT }, async () => {
    const whole = filesOf(join(folder, 'whole'));
    expect([...whole.keys()].filter((name) => TEMPORARY.test(name.split('/').at(-1)!))).toEqual([]);
    for (const [k, when] of KILLS.entries()) {
      const { signal, code } = await runOrder(builtProgram(), folder, 'done', when);
      // The last of them comes too late on a machine that is quick.
      if (when !== gathering) expect([k, signal, code]).toEqual([k, 'SIGKILL', null]);
    }
    const again = await runOrder(builtProgram(), folder, 'done');
    expect(again.code).toBe(2);
    expect(again.err).not.toContain('--force');
    expect(differingFiles(filesOf(join(folder, 'done')), whole)).toEqual([]);
  });
});
