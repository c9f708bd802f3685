import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shardOf } from '../../lib/io/index.js';
import type { BatchSummary } from '../../lib/report/batch/report.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

/** A folder with sound and faulty designs, each with content of its own, and what lies beside designs in a shop. */
function archive(designs: number) {
  const shop = shopFolder();
  mkdirSync(shop.at('archive'));
  for (let n = 0; n < designs; n++) {
    const bytes = readFileSync(shop.at(n % 3 === 0 ? 'wide.dst' : 'plain.dst'));
    writeFileSync(shop.at(`archive/d${n}.dst`), Buffer.concat([bytes, Buffer.from([n])]));
  }
  writeFileSync(shop.at('archive/bad.dst'), 'no stitches here');
  writeFileSync(shop.at('archive/invoice.pdf'), '');
  return { ...shop, folder: shop.at('archive') };
}

type Shop = ReturnType<typeof archive>;

const partFile = (part: number) => `part-${part}.jsonl`;

async function checkPart({ at, folder }: Shop, part: number, of: number, ...more: string[]) {
  const args = ['--shard', `${part}/${of}`, '--format', 'jsonl', '--fail-on', 'never', '--force'];
  return lieflat(['vet', folder, ...args, '-o', at(partFile(part)), ...more]);
}

/** All parts, and what they are called. */
async function cut(shop: Shop, of: number): Promise<string[]> {
  const parts = Array.from({ length: of }, (_, i) => i + 1);
  for (const part of parts) await checkPart(shop, part, of);
  return parts.map((part) => shop.at(partFile(part)));
}

async function summed(
  parts: readonly string[],
): Promise<{ summary: BatchSummary; code: number; err: string }> {
  const { out, code, err } = await lieflat(['summary', ...parts, '--format', 'json']);
  return { summary: JSON.parse(out) as BatchSummary, code, err };
}

describe('an archive that is checked in parts', () => {
  it('puts every file into one part, whatever the strokes of its path, by its hash alone', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 500 }), (path, of) => {
        const part = shardOf(path, of);
        expect(part >= 1 && part <= of && Number.isInteger(part)).toBe(true);
        expect(shardOf(path.replaceAll('\\', '/'), of)).toBe(part);
        const digits = createHash('sha256').update(path.replaceAll('\\', '/')).digest('hex').slice(0, 12);
        expect(part).toBe(1 + Number(BigInt(`0x${digits}`) % BigInt(of)));
      }),
    );
  });

  it.each([1, 3, 16])('sums up to the same bytes as one machine, in %i parts', async (of) => {
    const shop = archive(9);
    const parts = await cut(shop, of);
    for (const ending of ['html', 'json', 'txt']) {
      const [one, all] = [shop.at(`one.${ending}`), shop.at(`all.${ending}`)];
      await lieflat(['vet', shop.folder, '--summary', one, '--fail-on', 'never']);
      const { code } = await lieflat(['summary', ...parts.toReversed(), '-o', all, '--fail-on', 'never']);
      // One file cannot be read.
      expect(code).toBe(2);
      expect(readFileSync(all, 'utf8')).toBe(readFileSync(one, 'utf8'));
    }
  });

  it('names parts that are missing, and what a part lacks', async () => {
    const shop = archive(9);
    const parts = await cut(shop, 4);
    // Which files a part has hangs on the folder's name: the fullest has more than the one that it is to lose.
    const lengths = parts.map((part) => readFileSync(part, 'utf8').split('\n').length);
    const fullest = lengths.indexOf(Math.max(...lengths));
    const missing = (fullest + 1) % 4;
    const kept = parts.filter((_, i) => i !== missing);
    writeFileSync(parts[fullest], readFileSync(parts[fullest], 'utf8').split('\n').slice(1).join('\n'));
    const { summary, code } = await summed(kept);
    expect(code).toBe(2);
    expect(summary.gaps).toMatchObject({
      ...{ parts: 4, missing: [missing + 1] },
      unfinished: [{ part: fullest + 1, left: 1 }],
    });
    const { out } = await lieflat(['summary', ...kept]);
    const again = `check it with vet --shard ${missing + 1}/4, and give its file too.`;
    expect(out).toContain(`Part ${missing + 1} of 4 is missing: ${again}`);
    expect(out.replace(/\s+/g, ' ')).toContain(`Part ${fullest + 1} of 4 lacks 1 file: check it again`);
  });

  it('takes a part that broke off once it is checked again from there, and counts nothing twice', async () => {
    const shop = archive(9);
    const parts = await cut(shop, 2);
    const before = await summed(parts);
    const lines = readFileSync(parts[0], 'utf8').split('\n');
    const [broken, rest] = [shop.at('broken.jsonl'), shop.at('rest.jsonl')];
    writeFileSync(broken, `${lines[0]}\n${lines[1].slice(0, 40)}`);
    await lieflat([
      ...['vet', shop.folder, '--shard', '1/2', '--format', 'jsonl', '--fail-on', 'never'],
      ...['--since', broken, '-o', rest],
    ]);
    const again = await summed([broken, rest, parts[1], parts[1]]);
    expect(again.summary).toEqual(before.summary);
    expect(again.err).toContain(`${broken}: the last line breaks off; left out\n`);
  });

  it('says where parts are not of one archive, of one version or of one content', async () => {
    const shop = archive(6);
    const [first] = await cut(shop, 2);
    copyFileSync(first, shop.at('kept.jsonl'));
    copyFileSync(shop.at('plain.dst'), shop.at('archive/new.dst'));
    await checkPart(shop, 2, 2, '--place', 'cuff');
    expect((await summed([shop.at('kept.jsonl'), shop.at(partFile(2))])).summary.gaps?.unlike).toEqual([
      'archive',
      'settings',
    ]);
    await checkPart(shop, 3, 3);
    const uneven = await summed([shop.at('kept.jsonl'), shop.at(partFile(3))]);
    expect(uneven.summary.gaps?.unlike).toContain('parts');
    const line = JSON.parse(readFileSync(first, 'utf8').split('\n')[0]);
    writeFileSync(shop.at('other.jsonl'), JSON.stringify({ ...line, file: { ...line.file, sha256: 'f' } }));
    const changed = await summed([first, shop.at(partFile(2)), shop.at('other.jsonl')]);
    expect(changed.summary.gaps?.changed).toEqual([line.file.path]);
    expect(changed.code).toBe(2);
  });

  it('sums up a report that is no part, and says what it does not know', async () => {
    const { at, folder } = archive(4);
    await lieflat(['vet', folder, '--format', 'jsonl', '-o', at('all.jsonl')]);
    const { out, code } = await lieflat(['summary', at('all.jsonl')]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('files that could not be read are not counted');
    expect((await lieflat(['summary', at('all.jsonl'), '--fail-on', 'warn'])).code).toBe(1);
  });

  it.each([
    ['--shard', '0/4', 'lieflat: command line: --shard cannot be 0/4; write which part of how many, as 3/16'],
    ['--shard', '5/4', 'lieflat: command line: --shard cannot be 5/4'],
    ['--shard', '3', 'lieflat: command line: --shard cannot be 3'],
    ['--shard', '1/99999', 'lieflat: command line: --shard cannot be 1/99999'],
  ])('refuses %s %s', async (option, value, said) => {
    const { folder } = archive(1);
    const { err, code } = await lieflat(['vet', folder, option, value]);
    expect(err).toContain(said);
    expect(code).toBe(2);
  });

  it('refuses what is no part, and names lines that are none', async () => {
    const shop = archive(2);
    const { err, code } = await lieflat(['summary', shop.at('plain.dst')]);
    expect(err).toMatch(/plain\.dst: line 1: this is not a vet report in JSON lines; .*\n$/);
    expect(code).toBe(2);
    const [only] = await cut(shop, 1);
    writeFileSync(shop.at('spoiled.jsonl'), `{"schema":"lieflat/vet@1"}\n${readFileSync(only, 'utf8')}`);
    const spoiled = await lieflat(['summary', shop.at('spoiled.jsonl')]);
    expect(spoiled.err).toContain('spoiled.jsonl: line 1: not a vet report; left out\n');
    expect(spoiled.code).toBe(2);
    expect((await lieflat(['summary', only, '-o', shop.at('s.pdf')])).err).toContain('.html, .json or .txt');
  });
});
