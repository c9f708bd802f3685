/** What goes with a stack: common practice, no source; speeds are from memory. */
import { describe, expect, it } from 'vitest';
import { finishingFor } from '../../lib/advice/finishing.js';
import type { AdviceJob } from '../../lib/advice/job.js';
import { allowedStacks } from '../../lib/advice/stack-space.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { sayCoded } from '../../lib/report/phrases/coded.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { jobOn } from './jobs.js';

const finished = (job: AdviceJob, stack?: string, speedSpm = 800) => {
  const speed = { ...COMMERCIAL_HEAD.speedSpm, value: speedSpm };
  const sheets = stack === undefined ? allowedStacks(job).stacks[0] : parseStack(stack, CATALOGUE);
  return finishingFor(job, { ...COMMERCIAL_HEAD, speedSpm: speed }, sheets);
};
const words = wordsFor({ units: 'mm', detail: 'full' });
const hooping = (fabric: string, stack?: string) =>
  finished(jobOn(fabric), stack)
    .hooping.map((note) => sayCoded(note, words.setup.hooping))
    .join(' ');

const TABLE: readonly [fabric: string, topping: string | null, needle: string, speedSpm: number][] = [
  ['pique-knit', 'soluble-film', '75-11-ball', 800],
  ['jersey-knit', null, '75-11-ball', 800],
  ['jersey-tee', null, '75-11-ball', 800],
  ['performance-knit', null, '75-11-ball', 650],
  ['performance-knit-thin', null, '65-9-ball', 650],
  ['stretch-scrub', null, '75-11-ball', 650],
  ['woven-scrub', null, '75-11-sharp', 800],
  ['poplin', null, '75-11-sharp', 800],
  ['twill', null, '75-11-sharp', 800],
  ['denim', null, '80-12-sharp', 800],
  ['canvas-tote', null, '90-14-sharp', 800],
  ['fleece', 'soluble-film', '75-11-ball', 700],
  ['terry-towel', 'soluble-film', '75-11-sharp', 700],
  ['sheer-linen', null, '75-11-sharp', 800],
  ['fine-sweater', 'heat-film', '65-9-ball', 650],
  ['cap-structured', null, '80-12-sharp', 650],
  ['cap-unstructured', null, '80-12-sharp', 650],
  ['leggings-knit', null, '75-11-ball', 650],
  ['beanie-knit', 'soluble-film', '75-11-ball', 800],
  ['softshell', null, '80-12-sharp', 800],
  ['nylon-jacket', null, '75-11-sharp', 800],
  ['leather', null, '90-14-sharp', 800],
  ['silk', null, '75-11-sharp', 800],
];

describe('topping, needle and speed', () => {
  it('are told for every fabric', () => {
    expect(TABLE.map(([fabric]) => fabric)).toEqual(Object.keys(CATALOGUE.fabrics));
  });

  it.each(TABLE)('%s: topping %s, needle %s, %i stitches a minute', (fabric, topping, needle, speedSpm) => {
    expect(finished(jobOn(fabric))).toMatchObject({ topping, needle, speedSpm });
  });

  it('a fine needle for the narrow strokes of small letters', () => {
    const fine = (fabric: string, widthMm: number) => jobOn(fabric, [0, 90], {}, widthMm, 60);
    expect(finished(fine('twill', 1.1)).needle).toBe('65-9-sharp');
    expect(finished(fine('pique-knit', 1.1)).needle).toBe('65-9-ball');
    expect(finished(fine('pique-knit', 1.2)).needle).toBe('75-11-ball');
    expect(finished(jobOn('pique-knit', [])).needle).toBe('75-11-ball');
  });

  // Common practice, no source: thread of 40 weight frays in the eye of a 65/9, and closes letters under about 5 mm.
  it('the usual needle for the usual thread, whatever the letters; but finer thread is told of', () => {
    for (const [fabric, needle] of [
      ['twill', '75-11-sharp'],
      ['fleece', '75-11-ball'],
      ['pique-knit', '75-11-ball'],
    ]) {
      const { needle: id, why } = finished(jobOn(fabric, [0, 90], {}, 1.1));
      expect(id).toBe(needle);
      expect(why).toContainEqual({ code: 'needle', params: { because: 'narrow-for-thread' } });
      expect(why.map((reason) => sayCoded(reason, words.advice.why)).join(' ')).toMatch(
        /75\/11.*40-weight.*60-weight.*65\/9/,
      );
    }
  });

  it('wide satin is sewn more slowly, unless it is split', () => {
    const wide = jobOn('twill', [0], {}, 7);
    expect(finished(wide).speedSpm).toBe(650);
    expect(finished(jobOn('twill', [0], {}, 6.9)).speedSpm).toBe(800);
    const split = wide.objects.map((o) => ({ ...o, object: { ...o.object, split: true } }));
    expect(finished({ ...wide, objects: split }).speedSpm).toBe(800);
  });

  it('no machine is asked for more than it does', () => {
    for (const fabric of Object.keys(CATALOGUE.fabrics))
      expect(finished(jobOn(fabric), undefined, 500).speedSpm).toBe(500);
  });

  it('a test with and without a topping decides on knits of polyester', () => {
    expect(finished(jobOn('performance-knit')).why).toContainEqual({
      code: 'topping',
      params: { because: 'elastic' },
    });
  });
});

describe('hooping', () => {
  it('fabric that stretches lies relaxed, caps sit tight', () => {
    expect(hooping('jersey-knit')).toMatch(/no stretch/);
    expect(hooping('cap-unstructured')).toMatch(/tight on its frame/);
    expect(hooping('cap-unstructured')).not.toMatch(/lie on the table/);
  });

  it('says which sheets are turned', () => {
    expect(hooping('stretch-scrub', 'woven-polyester+woven-polyester@45')).toMatch(/turn the next one/);
    const sandwich = hooping('performance-knit-thin', 'woven-polyester+cutaway-2.5oz+woven-polyester@45');
    expect(sandwich).toMatch(/turn the others as the setup says/);
    expect(sandwich).not.toMatch(/next one/);
    expect(hooping('stretch-scrub', 'woven-polyester@45')).toMatch(/Turn the backing/);
    expect(hooping('stretch-scrub', 'woven-polyester')).not.toMatch(/[Tt]urn/);
  });

  it('says how each kind of backing and topping comes off', () => {
    expect(hooping('canvas-tote')).toMatch(/Tear the backing off/);
    expect(hooping('pique-knit', 'cutaway-2.5oz')).toMatch(/Trim the backing/);
    expect(hooping('terry-towel')).toMatch(/film that sticks out behind.*rinses out/);
    const onTearAway = hooping('terry-towel', 'tearaway-1.8oz-firm');
    expect(onTearAway).toMatch(/Smooth the pile.*Tear the backing off along the stitching/);
    expect(onTearAway).not.toMatch(/film that sticks out|Hoop the fabric flat and firm/);
    expect(hooping('terry-towel')).toMatch(/topping on last.*first wash/);
    expect(hooping('fine-sweater')).toMatch(/topping on last.*heat/);
    expect(hooping('fine-sweater')).not.toMatch(/damp|wash/);
    expect(hooping('twill')).not.toMatch(/topping/);
  });

  it('a second bonded sheet helps in picking out', () => {
    expect(hooping('pique-knit', 'cutaway-2.5oz+cutaway-2.5oz')).toMatch(/Pick stitches out/);
    expect(hooping('pique-knit', 'cutaway-2.5oz')).not.toMatch(/Pick stitches out/);
  });

  it('pile is not crushed, and hoop marks come out with starch, tried first on what must not get wet', () => {
    expect(hooping('terry-towel')).toMatch(/pile that a hoop crushes/);
    expect(hooping('pique-knit')).toMatch(/spray starch, not with water\.$/);
    expect(hooping('twill')).not.toContain('starch');
    expect(hooping('fine-sweater')).toMatch(/spray starch.*hidden spot first\.$/);
  });

  it('a hoop may mark leather and coated cloth for good', () => {
    for (const fabric of ['leather', 'softshell', 'nylon-jacket'])
      expect(hooping(fabric)).toMatch(/mark this material for good.*scrap first\.$/);
    expect(hooping('silk')).toMatch(/hidden spot first\.$/);
  });

  it('is in sentences', () => {
    for (const fabric of Object.keys(CATALOGUE.fabrics)) {
      const { hooping: lines, why } = finished(jobOn(fabric));
      const said = [
        ...lines.map((note) => sayCoded(note, words.setup.hooping)),
        ...why.map((reason) => sayCoded(reason, words.advice.why)),
      ];
      for (const line of said) expect(line).toMatch(/^[A-Z0-9].*\.$/);
    }
  });
});
