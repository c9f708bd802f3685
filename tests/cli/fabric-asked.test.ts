import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

/** A person who types these lines, one a question, and then goes away. */
function typing(...lines: string[]) {
  const prompts: string[] = [];
  const ask = async (prompt: string): Promise<string | null> => {
    prompts.push(prompt);
    return lines.shift() ?? null;
  };
  return { ask, prompts };
}

const report = (out: string) => JSON.parse(out);

describe('a fabric that is asked for', () => {
  it('is found by four questions at a terminal, which go to standard error', async () => {
    const { folder } = shopFolder();
    const { ask, prompts } = typing('2', 'x', 'thick', 'pi', '1');
    const ran = await lieflat(['pucker', 'plain.dst', '--fabric', 'ask', '--format', 'json'], {
      cwd: folder,
      ask,
    });
    expect(ran.code).toBe(0);
    expect(report(ran.out).fabric).toBe('fleece');
    expect(prompts).toHaveLength(5);
    expect(ran.err).toContain('1. Pull it between your hands. How far does it stretch?');
    expect(ran.err).toContain('Type a number from 1 to 3, or thin, medium or thick.');
    expect(ran.err).toContain(
      'taken as fleece: your answers come nearest to it. Next time write --fabric fleece\n',
    );
  });

  it('is asked for where a name is not known, and never guessed by its spelling', async () => {
    const { folder } = shopFolder();
    const { ask } = typing('none', 'thin', 'plain', 'washable');
    const ran = await lieflat(['vet', 'plain.dst', '--fabric', 'poplinn', '--format', 'json'], {
      cwd: folder,
      ask,
    });
    expect(ran.err).toContain('No fabric or garment is called poplinn.\n');
    expect(report(ran.out).risk.conditions.fabric).toBe('poplin');
  });

  it('is refused in one line where the person goes away', async () => {
    const { folder } = shopFolder();
    const ran = await lieflat(['pucker', 'plain.dst', '--fabric', 'ask'], { cwd: folder, ...typing('1') });
    expect([ran.code, ran.out]).toEqual([2, '']);
    expect(ran.err).toMatch(/\nlieflat: .*were not answered; name it with --fabric\n$/);
  });

  it('shows the questions where there is no terminal, and ends with 2', async () => {
    const { folder } = shopFolder();
    for (const [command, format] of [
      ['advise', 'text'],
      ['advise', 'json'],
      ['vet', 'jsonl'],
    ]) {
      const args = [command, 'plain.dst', '--fabric', 'ask', '--format', format];
      const { code, out, err } = await lieflat(args, { cwd: folder });
      expect(code).toBe(2);
      expect(err.match(/\n/g)).toHaveLength(1);
      for (const word of [
        'none',
        'double',
        'medium',
        'see-through',
        'keep-dry',
        'ask=some,medium,plain,washable',
      ])
        for (const text of format === 'text' ? [out, err] : [err]) expect(text).toContain(word);
      if (format !== 'text') expect(out).toBe('');
    }
  });

  it('shows them for a name that is not known as well, in one line', async () => {
    const { folder } = shopFolder();
    const { code, out, err } = await lieflat(['advise', 'plain.dst', '--fabric', 'hoodee'], { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /^lieflat: fabric "hoodee": no fabric or garment is called that; .*: stretch \(none.*\)\n$/,
    );
    expect(err).not.toMatch(/did you mean|poplin/);
  });

  it('offers garments by meaning where a word may be several of them, beside the questions', async () => {
    const { folder } = shopFolder();
    const args = ['advise', 'plain.dst', '--fabric', 'jacket'];
    const { code, out, err } = await lieflat(args, { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /^lieflat: fabric "jacket": that may be several garments; say which \(.*denim jacket.*leather jacket.*\); .*: stretch \(none.*\)\n$/,
    );
    const { ask } = typing('none', 'medium', 'plain', 'washable');
    const asked = await lieflat(['pucker', ...args.slice(1), '--format', 'json'], { cwd: folder, ask });
    expect(asked.err).toContain('denim jacket');
    expect(asked.err).toContain('1. Pull it between your hands.');
    expect(report(asked.out).fabric).toBe('twill');
  });

  it('takes answers that were typed with the option', async () => {
    const { folder } = shopFolder();
    const args = ['vet', 'plain.dst', '--format', 'json', '--fabric'];
    const { code, out, err } = await lieflat([...args, 'ask=none,thick'], { cwd: folder });
    expect([code, report(out).risk.conditions.fabric]).toEqual([0, 'canvas-tote']);
    expect(err).toMatch(/^taken as canvas/);
    const wrong = await lieflat([...args, 'ask=some,fuzzy'], { cwd: folder });
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toMatch(
      /^lieflat: command line: --fabric ask= cannot be answered with some,fuzzy; give one word each of/,
    );
  });
});

describe('a garment that is named', () => {
  it('is told with what it is taken for', async () => {
    const { folder } = shopFolder();
    const why =
      /garment\s+Totes: heavy canvas that does not give\. If yours is made of something else, use --fabric ask\./;
    for (const line of [
      ['vet'],
      ['pucker'],
      ['pucker', '--stack', 'none', '--stack', 'tearaway-1.8oz-firm'],
      ['advise', '--stack', 'tearaway-1.8oz-firm', '--after-wash', '0'],
    ]) {
      const { out } = await lieflat([line[0], 'plain.dst', '--fabric', 'Totes', ...line.slice(1)], {
        cwd: folder,
      });
      expect(out.replace(/\s+/g, ' '), line.join(' ')).toMatch(why);
    }
    const { out } = await lieflat(['pucker', 'plain.dst', '--fabric', 'canvas-tote', '--format', 'json'], {
      cwd: folder,
    });
    expect(report(out).conditions.garment).toBeNull();
  });

  it("may be a shop's own, like another fabric but for some answers", async () => {
    const { folder, at } = shopFolder();
    const garments = {
      softshell: { like: 'twill', stretch: 'some' },
      'Team Hoodie': { like: 'polo', body: 'thick' },
    };
    writeFileSync(at('lieflat.config.json'), JSON.stringify({ garments }));
    const conditions = async (fabric: string) => {
      const { out, err } = await lieflat(['pucker', 'plain.dst', '--fabric', fabric, '--format', 'json'], {
        cwd: folder,
      });
      expect(err).toBe('');
      return report(out).conditions;
    };
    expect(await conditions('softshell')).toMatchObject({
      fabric: 'softshell',
      fabricName: 'softshell',
      garment: {
        name: 'softshell',
        madeOf: 'like twill, but stretch some, as your profile says',
        takenAs: null,
      },
    });
    expect(await conditions('team hoodies, navy')).toMatchObject({
      fabric: 'team-hoodie',
      fabricName: 'Team Hoodie',
    });
    expect((await conditions('hoodie')).fabric).toBe('fleece');
    const { out } = await lieflat(['catalog', 'fabrics', 'team-hoodie'], { cwd: folder });
    expect(out).toContain('like pique-knit, but body thick');
    const profile = await lieflat(['profile'], { cwd: folder });
    expect(profile.out).toMatch(/garments\.softshell\.like\s+twill/);
    expect(profile.out).not.toContain('catalogue.fabrics');
  });
});
