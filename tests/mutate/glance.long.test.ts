import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { Glance } from './glance.js';

const path = fileURLToPath(new URL('../../lib/segment/legs.ts', import.meta.url));
const source = readFileSync(path, 'utf8');
const at = (text: string) => ({ path, source: `${text}\n${source}`, of: 'read' }) as const;
/** What no look takes, on however busy a machine, ms. */
const NEVER_MS = 600_000;

describe('a look at changed code', () => {
  const glance = new Glance(NEVER_MS);
  afterAll(() => glance.end());

  it.each([
    ['ends its process', 'process.kill(process.pid, "SIGKILL");'],
    ['takes memory without bound', 'const all = []; for (;;) all.push(new Float64Array(1e6).fill(1));'],
    ['takes the heap without bound', 'const all = []; for (;;) all.push({ all });'],
    ['is no code', 'const of ='],
    ['throws', 'throw new Error();'],
  ])('sees what %s, and goes on', async (_, text) => {
    expect(await glance.seesChange(at(text))).toBe(true);
    expect(await glance.seesChange(at(''))).toBe(false);
  });

  it('sees what has no end', async () => {
    const hasty = new Glance(10_000);
    expect(await hasty.seesChange(at('for (;;);'))).toBe(true);
    hasty.end();
  });
});
