import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { holdTrial } from '../fuzz/commands/hold-trial.js';
import type { Trial } from '../fuzz/commands/trial.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';

onACoarseMesh();

const cases = readdirSync(new URL('.', import.meta.url)).filter((name) => name.endsWith('.json'));
/** Work the same ground out several times, as another case does once; they wait for the long runs. */
const SLOW = ['relay-on-a-line.json', 'pucker-on-a-line.json'];
const trial = (name: string): Trial => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'));

describe('what went wrong once', () => {
  it.each(cases.filter((name) => IN_FULL || !SLOW.includes(name)))('%s does so no more', async (name) => {
    const { code } = await holdTrial(trial(name));
    expect([0, 1, 2]).toContain(code);
  });

  it('is told of each case', () => {
    expect(cases.length).toBeGreaterThan(0);
    for (const name of SLOW) expect(cases).toContain(name);
    for (const name of cases) expect(trial(name).wentWrong, name).toMatch(/\S/);
  });
});
