import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { underlayText } from '../../lib/calibrate/underlay-text.js';
import { penetrations } from '../../lib/format/stitches.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { PLACES } from '../../lib/materials/places.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { colorBlocks, colorTables, layOutColors } from '../../lib/report/card/colors.js';
import type { CardInput } from '../../lib/report/card/input.js';
import { operatorCard } from '../../lib/report/card/page.js';
import { type PaperName, printRoom } from '../../lib/report/card/paper.js';
import { recordLines } from '../../lib/report/card/record.js';
import { grainWords, layersOf, turnWords } from '../../lib/report/card/stack-layers.js';
import { textHeight } from '../../lib/report/card/text-height.js';
import { originOffset, reducedDrawing, roundReduction } from '../../lib/report/card/true-scale.js';
import type { CardLanguage } from '../../lib/report/card/words.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { colorsNamed, ownColors } from '../../lib/report/proof/thread-colors.js';
import { blocksOf, cardInput, hoopNamed, LONG_NOTES, OPTIONS, PLAN, sampleDesign } from './card-input.js';
import { littleCrest, Needle } from './little-design.js';

const blocks = (count: number) => {
  const design = blocksOf(count);
  return colorBlocks(design, penetrations(design), COMMERCIAL_HEAD);
};

const words = wordsFor({ units: 'mm', detail: 'full' });
const { layers: said } = words.card;

describe('colors in sewing order', () => {
  it('count stitches, share the time and tell stops from colour changes', () => {
    const [first, second, third] = blocks(3);
    expect([first, second, third].map(({ number, stitches }) => [number, stitches])).toEqual([
      [1, 11],
      [2, 11],
      [3, 11],
    ]);
    expect(first.timeShare + second.timeShare + third.timeShare).toBeCloseTo(1, 12);
    // Blocks alike take the same time.
    expect(first.timeShare).toBeCloseTo(1 / 3, 12);
    expect([first.stopsAfter, second.stopsAfter, third.stopsAfter]).toEqual([[], [3], []]);
    expect(second.startsAt).toEqual({ x: 0, y: 2 });
    expect(colorTables(layOutColors(blocks(3)), words)).toContain('STOP after 3');
  });

  it('stand in two columns past six, and say how many are left out past thirty', () => {
    expect(layOutColors(blocks(6)).columns.map((column) => column.length)).toEqual([6]);
    expect(layOutColors(blocks(12)).columns.map((column) => column.length)).toEqual([6, 6]);
    expect(layOutColors(blocks(30))).toMatchObject({ more: 0 });
    const layout = layOutColors(blocks(33));
    expect(layout.columns.map((column) => column.length)).toEqual([15, 15]);
    expect(colorTables(layout, words)).toContain('and 3 more');
  });
});

describe('layers', () => {
  it('lie topping, garment, then the backing outward', () => {
    const layers = layersOf(
      {
        topping: 'film',
        garment: 'knit',
        grainDeg: 90,
        sheets: [
          { name: 'first', angleDeg: 0 },
          { name: 'second', angleDeg: 45 },
        ],
      },
      words,
    );
    expect(layers.map(({ head, text }) => `${head}: ${text}`)).toEqual([
      'topping: film',
      'garment: knit, grain upright',
      'backing 1: first, straight (0°)',
      'backing 2: second, turned 45° counterclockwise',
    ]);
    const bare = layersOf({ topping: null, garment: 'knit', grainDeg: 0, sheets: [] }, words);
    expect(bare.map(({ head, text }) => `${head}: ${text}`)).toEqual([
      'garment: knit, grain level',
      'backing: none',
    ]);
  });

  it('turn the shorter way, and a sheet is the same again after half a turn', () => {
    expect(turnWords(135, said)).toBe('turned 45° clockwise');
    expect(turnWords(90, said)).toBe('a quarter turn (90°)');
    expect(turnWords(180, said)).toBe(turnWords(0, said));
    expect(turnWords(-45, said)).toBe(turnWords(135, said));
    expect(grainWords(60, said)).toBe('leaning right, 60° from level');
    expect(grainWords(120, said)).toBe('leaning left, 60° from level');
  });
});

describe('the line for the log', () => {
  it('is a record of RFC 4180 whose stack reads back', () => {
    const facts = {
      file: 'crest, "new".dst',
      fabric: 'performance-knit',
      stackText: PLAN.stackText,
      underlay: [
        { object: 2, to: 'fill' as const },
        { object: 5, to: 'fill' as const },
        { object: 7, to: 'edge-run' as const },
      ],
    };
    const [row] = parse(recordLines(facts).join('\n'), { columns: true }) as Record<string, string>[];
    expect(row).toEqual({
      file: facts.file,
      fabric: 'performance-knit',
      stack: PLAN.stackText,
      underlay: 'fill:2 5;edge-run:7',
      washes: '',
      grade: '',
      remarks: '',
    });
    expect(parseStack(row.stack, CATALOGUE)).toEqual(PLAN.stack);
    expect(underlayText([])).toBe('as-is');
  });
});

describe('the scale', () => {
  const bounds = { minX: -100, minY: -50, maxX: 100, maxY: 50 };

  it('is the largest round one that fits', () => {
    expect([0.5, 1, 1.01, 2.6, 9, 10, 11, 16].map(roundReduction)).toEqual([1, 1, 1.25, 3, 10, 10, 12, 20]);
    const plan = reducedDrawing(bounds, null, { widthMm: 120, heightMm: 120 });
    // 200 mm into 120 mm less the margins takes more than 1 : 1.75.
    expect(plan.reduction).toBe(2);
    expect(plan.widthMm).toBeLessThanOrEqual(120);
    expect(plan.heightMm).toBeLessThanOrEqual(120);
  });

  it('measures the origin from the middle', () => {
    expect(originOffset(bounds)).toBe(null);
    expect(originOffset({ ...bounds, minX: -80 })).toEqual({ right: -10, up: -0 });
  });
});

describe('the height of text', () => {
  it('grows with its length, its type and a narrower column', () => {
    const text = 'Hoop the fabric flat and firm, straight with their grain. '.repeat(4).trim();
    const height = textHeight([text], 80, 8);
    expect(textHeight([text, text], 80, 8)).toBeCloseTo(2 * height, 9);
    expect(textHeight([text], 60, 8)).toBeGreaterThan(height);
    expect(textHeight([text], 80, 10)).toBeGreaterThan(height);
    // A word longer than a line is broken.
    expect(textHeight(['x'.repeat(200)], 80, 8)).toBeGreaterThan(textHeight(['x'], 80, 8));
  });
});

describe('the card', () => {
  it('tells the operator what to set up, and nothing of money unless asked', async () => {
    const card = await operatorCard(cardInput(littleCrest()), OPTIONS);
    for (const text of [
      '75/11 ball point',
      '650 stitches a minute',
      'water-soluble film',
      'grade 3.5',
      '8 washes',
    ])
      expect(card).toContain(text);
    expect(card).not.toContain('USD');
    expect(card).not.toContain('CHECK FIRST');
    expect(card).not.toContain('CHANGED FILE');
    expect(await operatorCard(cardInput(littleCrest()), { ...OPTIONS, cost: true })).toContain('$1.23');
  });

  it('says at the top that no backing is good enough, and shows what comes closest', async () => {
    const flattest = { ...PLAN, speedSpm: 600, riskWashed: { ...PLAN.riskWashed, wrinkleMm: 0.2 } };
    const advised = {
      recommended: flattest,
      meets: 'no' as const,
      plans: [PLAN, flattest],
      changes: ['width' as const],
    };
    const card = await operatorCard(cardInput(littleCrest(), { advised }), OPTIONS);
    expect(card).toMatch(/class="alert">CHECK FIRST: .*grade 3\.5, new and after 8 washes.*split them/);
    expect(card).toContain('600 stitches a minute');
  });

  it('says at the top that the trade would not load the backing which was asked for', async () => {
    const advised = { verdict: 'warn' as const, verdictReasons: [{ because: 'against-rule' as const }] };
    const card = await operatorCard(cardInput(littleCrest(), { advised }), OPTIONS);
    expect(card).toContain('class="alert">CHECK FIRST: the trade would not load this backing here.');
  });

  it('asks for the changed file where the plan changes underlay', async () => {
    const plan = { underlay: [1, 2].map((object) => ({ object, to: 'fill' as const })) };
    expect(await operatorCard(cardInput(littleCrest(), { plan }), OPTIONS)).toContain(
      'CHANGED FILE NEEDED: a light fill under objects 1 and 2',
    );
  });

  it('says so where no known hoop holds the design, and at which scale a large one is drawn', async () => {
    const card = await operatorCard(cardInput(sampleDesign('jacket-back.dst'), { hoop: null }), OPTIONS);
    expect(card).toContain('<p class="alert">NO HOOP IN THE LIST HOLDS THIS DESIGN');
    expect(card).toMatch(/<strong>NOT TRUE SIZE: drawn at 1:[\d.]+\.<\/strong>/);
  });

  it('draws what is larger than the paper as large as the first sheet lets, its hoop small beside it', async () => {
    const input = cardInput(sampleDesign('jacket-back.dst'), { hoop: hoopNamed('square-380') });
    for (const paper of ['letter', 'a4'] as const) {
      const card = await operatorCard(input, { ...OPTIONS, paper });
      const [, reduction] = /drawn at 1:([\d.]+)\./.exec(card)!;
      // 280 mm: at 1:4 it fills the column of 96 mm, less its margins and the marks at its side.
      expect(Number(reduction), paper).toBeLessThanOrEqual(4);
      expect(card, paper).toMatch(/Hoop at 1:\d+/);
    }
  });

  it('warns of a hoop that the design stands out of', async () => {
    const warning = 'DO NOT SEW IN THIS HOOP';
    const jacket = sampleDesign('jacket-back.dst');
    const inFrame = cardInput(jacket, { hoop: hoopNamed('frame-430x290') });
    expect(await operatorCard(inFrame, OPTIONS)).toContain(warning);
    expect(await operatorCard(cardInput(littleCrest()), OPTIONS)).not.toContain(warning);
  });

  it('names each thread with its needle, and says once that a file holds none', async () => {
    const plain = await operatorCard(cardInput(blocksOf(3)), OPTIONS);
    expect(plain.match(/holds no thread colors/g)).toHaveLength(1);
    const threads = colorsNamed('navy, 5: <b>Gold</b>, navy', ownColors({ '<b>Gold</b>': '#cc9900' }));
    const card = await operatorCard(cardInput(blocksOf(3), { threads }), OPTIONS);
    expect(card).not.toContain('holds no thread colors');
    const rows = [...card.matchAll(/<tr><th scope="row" class="number">(\d)<\/th>(.*?)<\/tr>/g)];
    const cells = rows.map(([, number, rest]) => [
      number,
      ...rest
        .replace(/<\/?(td|strong)[^>]*>/g, '|')
        .split(/\|+/)
        .filter(Boolean),
    ]);
    expect(cells.map((row) => [row[0], row[1], row.at(-1)])).toEqual([
      ['1', '1', 'navy'],
      ['2', '5', '&lt;b&gt;Gold&lt;/b&gt;'],
      ['3', '1', 'navy'],
    ]);
  });

  it('says at the top what the job is, and nothing of it where nobody did', async () => {
    const job = {
      order: '4711',
      customer: 'A & B',
      quantity: 24,
      garmentColor: 'charcoal',
      due: 'May 3',
      remarks: 'mind the seam',
    };
    const card = await operatorCard(cardInput(littleCrest(), { job, place: PLACES[0] }), OPTIONS);
    expect(card).toContain(
      '<p class="job">Order 4711 · for A &amp; B · 24 pieces · garment charcoal · left chest · due May 3 · Remarks: mind the seam</p>',
    );
    expect(await operatorCard(cardInput(littleCrest()), OPTIONS)).not.toContain('class="job"');
  });

  it('has checks and cautions that fit the piece', async () => {
    const on = async (fabric: string, more: Partial<CardInput> = {}) =>
      (['en', 'es'] as const).map((language) =>
        operatorCard(cardInput(littleCrest(), { advised: { fabric }, ...more }), { ...OPTIONS, language }),
      );
    for (const card of await Promise.all(await on('cap-structured'))) {
      expect(card).not.toMatch(/sleeve|manga|on a scrap of|en un retazo/);
      expect(card).toMatch(/on a spare cap|en una gorra de sobra/);
    }
    for (const card of await Promise.all(await on('terry-towel'))) expect(card).not.toMatch(/sleeve|manga/);
    for (const card of await Promise.all(
      await on('twill', { place: PLACES.find(({ id }) => id === 'cap-front') }),
    ))
      expect(card).not.toMatch(/sleeve|manga/);
    for (const card of await Promise.all(await on('pique-knit'))) expect(card).toMatch(/sleeve|manga/);
  });

  it('is at true size wherever a sheet can hold it, on a second one where the words leave no room', async () => {
    const tall = await operatorCard(
      cardInput(sampleDesign('crest.dst'), { plan: { hoopingNotes: LONG_NOTES } }),
      { ...OPTIONS, paper: 'letter' },
    );
    expect(tall).toContain('TWO SHEETS');
    expect(tall.match(/True size, if printed/g)).toHaveLength(1);
    expect(tall).toMatch(/class="card second">.*True size/s);
    const small = await operatorCard(cardInput(littleCrest()), OPTIONS);
    expect(small).toContain('True size');
    expect(small).not.toContain('TWO SHEETS');
  });

  it('is at true size on as few sheets as hold it together, with marks where they meet', async () => {
    const sheetsOf = async (widthMm: number, heightMm: number, paper: PaperName, language: CardLanguage) => {
      const design = new Needle()
        .column(0, 0, { width: 6, height: heightMm })
        .column(widthMm - 6, 0, { width: 6, height: heightMm })
        .end();
      const card = await operatorCard(cardInput(design, { hoop: null }), { ...OPTIONS, paper, language });
      const sheets = card.split('<section class="card second">').slice(1);
      const sizes = sheets.map(
        (sheet) => /class="true-scale"[^>]* width="([\d.]+)mm" height="([\d.]+)mm"/.exec(sheet)!,
      );
      for (const [, width, height] of sizes) {
        expect(Number(width)).toBeLessThanOrEqual(printRoom(paper).widthMm);
        expect(Number(height)).toBeLessThanOrEqual(printRoom(paper).heightMm);
      }
      return { card, sheets, turned: card.includes('rotate(-90)') };
    };
    // Whatever lies on both sheets at a join is there twice at the same place of the picture, rings and letters among it.
    const letters = (sheet: string): string[] =>
      [...sheet.matchAll(/>([A-H])<\/text>/g)].map(([, letter]) => letter);
    const cases = [
      [220, 90, 'letter', 1, true],
      [230, 190, 'letter', 2, false],
      [170, 300, 'a4', 2, false],
      [280, 280, 'letter', 4, false],
      [280, 280, 'a4', 4, false],
    ] as const;
    for (const [widthMm, heightMm, paper, parts, turned] of cases) {
      const en = await sheetsOf(widthMm, heightMm, paper, 'en');
      expect([widthMm, heightMm, en.sheets.length, en.turned]).toEqual([widthMm, heightMm, parts, turned]);
      expect(en.card).toContain(parts === 1 ? 'TWO SHEETS' : `${parts + 1} SHEETS`);
      for (const sheet of en.sheets) {
        expect(sheet).toContain('True size');
        expect(letters(sheet)).toEqual([...'ABCD'].slice(0, parts === 1 ? 0 : parts === 2 ? 2 : 4));
        expect(sheet.includes('then tape') || sheet.includes('Then tape')).toBe(parts > 1);
      }
      expect((await sheetsOf(widthMm, heightMm, paper, 'es')).sheets).toHaveLength(parts);
    }
    // Larger than four sheets: reduced alone, and said so.
    const { card, sheets } = await sheetsOf(420, 280, 'letter', 'en');
    expect(sheets).toEqual([]);
    expect(card).toContain('NOT TRUE SIZE');
  });

  it('is not set for a design without stitches', async () => {
    await expect(operatorCard(cardInput(blocksOf(0)), OPTIONS)).rejects.toThrow(RangeError);
  });

  it('shows inches', async () => {
    const card = await operatorCard(cardInput(littleCrest()), { ...OPTIONS, units: 'in' });
    expect(card).toContain('wrinkles about 0.012 in high');
    expect(card).toContain('3.94 in across');
  });
});
