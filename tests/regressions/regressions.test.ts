import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { holdTrial } from '../fuzz/commands/hold-trial.js';
import type { Trial } from '../fuzz/commands/trial.js';

const cases = readdirSync(new URL('.', import.meta.url)).filter((name) => name.endsWith('.json'));
const trial = (name: string): Trial => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));

describe('what went wrong once', () => {
  it.each(cases)('%s does so no more', async (name) => {
    const { code } = await holdTrial(trial(name));
    expect([0, 1, 2]).toContain(code);
  });

  it('is told of each case', () => {
    expect(cases.length).toBeGreaterThan(0);
    for (const name of cases) expect(trial(name).wentWrong, name).toMatch(/\S/);
  });
});
