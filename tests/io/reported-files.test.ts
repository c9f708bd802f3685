import { execFileSync } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { reportedFiles } from '../../lib/io/reported-files.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();

const line = (sha256: string, settings = 'usual') =>
  JSON.stringify({ schema: 'lieflat/vet@1', file: { path: 'a.dst', sha256 }, settings });

async function read(text: string) {
  await writeFile(at('report.jsonl'), text);
  const { hashes, ...rest } = await reportedFiles(at('report.jsonl'), () => 'usual');
  return { hashes: [...hashes], ...rest };
}

describe('what an earlier report holds', () => {
  it('is the hashes of its lines under the same settings', async () => {
    const text = `${line('a')}\n${line('b', 'other')}\r\n\n${line('c')}\n${line('a')}\n`;
    expect(await read(text)).toEqual({ hashes: ['a', 'c'], badLines: [], cutOff: false });
    // A line is whole without a line feed, too.
    expect(await read(text.trimEnd())).toEqual({ hashes: ['a', 'c'], badLines: [], cutOff: false });
    expect(await read('')).toEqual({ hashes: [], badLines: [], cutOff: false });
  });

  it('is read up to where its last line breaks off, wherever that is', async () => {
    const whole = `${line('a')}\n`;
    const last = line('b');
    for (let cut = 1; cut < last.length; cut++)
      expect(await read(whole + last.slice(0, cut))).toEqual({ hashes: ['a'], badLines: [], cutOff: true });
    expect(await read(last.slice(0, 10))).toEqual({ hashes: [], badLines: [], cutOff: true });
  });

  it('is told with the numbers of lines that are none', async () => {
    const other = JSON.stringify({ schema: 'lieflat/pucker@1', file: { sha256: 'x' } });
    const text = `${line('a')}\n{"cut":\n${line('b')}\nnull\n${other}\n${line('c')}\n`;
    expect(await read(text)).toEqual({ hashes: ['a', 'b', 'c'], badLines: [2, 4, 5], cutOff: false });
  });

  it('is refused in one line where nothing of it is a report, and never waited for', async () => {
    for (const text of ['file,design_stitches\r\n', 'x', '{"schema":"lieflat/vet@2"}\n'])
      await expect(read(text)).rejects.toMatchObject({ code: 'undecodable' });
    await expect(reportedFiles(at('none.jsonl'), () => '')).rejects.toMatchObject({ code: 'unreadable' });
    await expect(reportedFiles(at(), () => '')).rejects.toMatchObject({ code: 'unreadable' });
    execFileSync('mkfifo', [at('pipe')]);
    await expect(reportedFiles(at('pipe'), () => '')).rejects.toMatchObject({ code: 'unreadable' });
  });
});
