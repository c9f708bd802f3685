import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { CardInput } from '../../lib/report/card/input.js';
import { operatorCard } from '../../lib/report/card/page.js';
import { PAPERS, type PaperName, printRoom } from '../../lib/report/card/paper.js';
import { CARD_LANGUAGES, type CardLanguage } from '../../lib/report/card/words.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import {
  blocksOf,
  cardInput,
  hoopNamed,
  LONG_NOTES,
  OPTIONS,
  PLAN,
  sampleDesign,
} from '../report/card-input.js';
import { littleCrest } from '../report/little-design.js';
import { complaints, inChromium } from './chromium.js';

onACoarseMesh();

const open = inChromium();

/** 96 CSS pixels an inch (CSS Values and Units 3, 6.2). */
const PER_MM = 96 / 25.4;

/** Cards that are hard to fit, and the ones that are usual. */
const CARDS: readonly [string, () => CardInput][] = [
  ['a small design', () => cardInput(littleCrest())],
  ['a name', () => cardInput(sampleDesign('name-drop.dst'), { hoop: hoopNamed('round-90') })],
  ['a cap', () => cardInput(sampleDesign('cap-front.dst'), { hoop: hoopNamed('cap-frame'), grainDeg: 60 })],
  ['a towel', () => cardInput(sampleDesign('towel-monogram.dst'), { hoop: hoopNamed('round-180') })],
  ['a jacket back', () => cardInput(sampleDesign('jacket-back.dst'), { hoop: null })],
  [
    'a jacket back in a frame',
    () => cardInput(sampleDesign('jacket-back.dst'), { hoop: hoopNamed('frame-430x290') }),
  ],
  ['long notes', () => cardInput(sampleDesign('crest.dst'), { plan: { hoopingNotes: LONG_NOTES } })],
  ['twelve colours', () => cardInput(blocksOf(12))],
  ['forty colours', () => cardInput(blocksOf(40))],
  [
    'all of it at once',
    () =>
      cardInput(blocksOf(30), {
        hoop: hoopNamed('round-180'),
        plan: {
          hoopingNotes: LONG_NOTES,
          underlay: Array.from({ length: 40 }, (_, i) => ({ object: 2 * i + 1, to: 'edge-run+fill' })),
          stack: [...PLAN.stack, { sheet: 'cutaway-2.5oz', angleDeg: 90 }],
        },
        advised: {
          meets: 'no',
          changes: ['width', 'laundering'],
          cautionCodes: ['cap-frame', 'heat', 'skin'],
        },
      }),
  ],
];

/** Pages of a PDF: its page objects (ISO 32000-1, 7.7.3.3), which Chromium writes outside of compressed streams. */
const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;

const onPaper = async (page: Page): Promise<number> => pagesOf(await page.pdf({ preferCSSPageSize: true }));

/** How much higher the card is than its paper, mm, and what stands out of it to the right. */
function overflow(page: Page): Promise<{ high: number; wide: number }> {
  return page.evaluate(() => {
    const { document } = globalThis as unknown as {
      document: {
        querySelector(q: string): {
          getBoundingClientRect(): { width: number; height: number };
          scrollWidth: number;
          clientWidth: number;
        };
      };
    };
    const card = document.querySelector('.card');
    return { high: card.getBoundingClientRect().height, wide: card.scrollWidth - card.clientWidth };
  });
}

/** Each paper and each language; in full each with each. */
const SHEETS = (['a4', 'letter'] as const).flatMap((paper, k) =>
  CARD_LANGUAGES.filter((_, l) => IN_FULL || (k + l) % 2 === 1).map((language): [PaperName, CardLanguage] => [
    paper,
    language,
  ]),
);

describe.each(SHEETS)('on %s in %s', (paper, language) => {
  it.each(CARDS)('%s takes one sheet for its words, and nothing stands out of it', async (_, input) => {
    const { page, requests, errors } = await open(
      await operatorCard(input(), { ...OPTIONS, paper, language }),
      { media: 'print' },
    );
    const { high, wide } = await overflow(page);
    expect(high / PER_MM).toBeLessThanOrEqual(printRoom(paper).heightMm);
    expect(wide).toBe(0);
    // The picture at true size may need a sheet of its own.
    expect(await onPaper(page)).toBe(1 + (await page.locator('.second').count()));
    expect([...requests, ...errors]).toEqual([]);
  });
});

describe('counting pages', () => {
  it('finds the second page of a longer document', async () => {
    const { page } = await open('<p style="break-after: page">one</p><p>two</p>');
    expect(await onPaper(page)).toBe(2);
  });
});

describe('the page of a card', () => {
  it.each(CARDS.filter(([name]) => ['a cap', 'twelve colours', 'all of it at once'].includes(name)))(
    'satisfies the accessibility checker: %s',
    async (_, input) => {
      const { page } = await open(await operatorCard(input(), OPTIONS));
      expect(await complaints(page)).toEqual([]);
    },
  );

  it('is of the paper asked for', async () => {
    const { page } = await open(
      await operatorCard(cardInput(littleCrest()), { ...OPTIONS, paper: 'letter' }),
    );
    const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(
      (await page.pdf({ preferCSSPageSize: true })).toString('latin1'),
    )!;
    // 72 points an inch; browsers round to whole ones or nearly.
    expect(Number(width)).toBeCloseTo((PAPERS.letter.widthMm / 25.4) * 72, -0.5);
    expect(Number(height)).toBeCloseTo((PAPERS.letter.heightMm / 25.4) * 72, -0.5);
  });

  it('shows a name that is markup as a name', async () => {
    const title = '<img src=x onerror="document.title=1">.dst';
    const { page, requests } = await open(
      await operatorCard(cardInput(littleCrest()), { ...OPTIONS, title }),
    );
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('h1').textContent()).toContain(title);
    expect(requests).toEqual([]);
  });
});

describe('true size', () => {
  /** Width of the stitches on paper, strokes left out, mm. */
  const sewnWidth = async (page: Page): Promise<number> => {
    const box = (await page.locator('#stitches').evaluate((path) => {
      const shape = path as unknown as {
        getBBox(): { width: number };
        getScreenCTM(): { a: number };
      };
      return shape.getBBox().width * shape.getScreenCTM().a;
    })) as number;
    return box / PER_MM;
  };

  it.each(CARDS.filter(([name]) => ['a small design', 'a name', 'a cap'].includes(name)))(
    '%s is as large as it is sewn, and its bar as long as it says',
    async (_, make) => {
      const input = make();
      const { page } = await open(await operatorCard(input, OPTIONS), { media: 'print' });
      const { widthMm } = input.designMeasures;
      expect(Math.abs((await sewnWidth(page)) / widthMm - 1)).toBeLessThan(0.005);
      expect(await page.locator('figcaption').first().textContent()).toContain('True size');
      const label = page.locator('.true-scale text', { hasText: '50 mm' });
      expect(await label.count()).toBe(1);
      const bar = await page
        .locator('.true-scale > path')
        .evaluateAll((paths) =>
          paths.map(
            (path) =>
              (
                path as unknown as { getBoundingClientRect(): { width: number; height: number } }
              ).getBoundingClientRect().width,
          ),
        );
      const near = bar.map((width) => Math.abs(width / PER_MM - 50)).sort((a, b) => a - b)[0];
      expect(near).toBeLessThan(0.3);
    },
  );

  it('is said not to be where the paper is too small, with the scale that it has', async () => {
    const input = cardInput(sampleDesign('jacket-back.dst'), { hoop: null });
    const { page } = await open(await operatorCard(input, OPTIONS), { media: 'print' });
    const said = await page.locator('figcaption strong').first().textContent();
    const reduction = Number(/1:([\d.]+)\./.exec(said!)![1]);
    expect(reduction).toBeGreaterThan(1);
    const ratio = input.designMeasures.widthMm / (await sewnWidth(page));
    expect(Math.abs(ratio / reduction - 1)).toBeLessThan(0.005);
  });

  it.each(CARDS.filter(([name]) => ['a cap', 'twelve colours', 'a jacket back'].includes(name)))(
    'keeps the numbers and words of the picture within it: %s',
    async (_, input) => {
      const { page } = await open(await operatorCard(input(), OPTIONS), { media: 'print' });
      const frame = (await page.locator('.true-scale').first().boundingBox())!;
      const marks = await page.locator('.card:not(.second) .true-scale :is(.callout, text)').all();
      expect(marks.length).toBeGreaterThan(4);
      for (const mark of marks) {
        const box = (await mark.boundingBox())!;
        expect(box.x).toBeGreaterThanOrEqual(frame.x - 0.5);
        expect(box.y).toBeGreaterThanOrEqual(frame.y - 0.5);
        expect(box.x + box.width).toBeLessThanOrEqual(frame.x + frame.width + 0.5);
        expect(box.y + box.height).toBeLessThanOrEqual(frame.y + frame.height + 0.5);
      }
    },
  );
});
