/** What is recommended on the sample designs agrees with what the trade does: every entry is common practice, no source. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Advice } from '../../lib/advice/advise.js';
import { decodeDesign } from '../../lib/format/decode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import { BUILT_IN_FIGURES } from '../../lib/profile.js';
import { adviseToText } from '../../lib/report/advise/document.js';
import type { Vetting } from '../../lib/shop.js';
import { relaid } from '../../lib/stitch/relaid.js';
import { SHOP } from '../built-in-shop.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';

onACoarseMesh(1.5);

const fileOf = (name: string, bytes = 1) => ({ path: name, format: 'dst', bytes, sha256: '0' }) as const;

async function vetted(name: string): Promise<Vetting> {
  const bytes = readFileSync(new URL(`../../samples/${name}`, import.meta.url));
  return SHOP.vet(await decodeDesign(bytes, 'dst'), { file: fileOf(name, bytes.length) });
}

/** The beginning of a design, up to its object of that number. */
function upTo({ design, objects, stitches }: Vetting, last: number): Vetting {
  const end = stitches.record[objects[last - 1].range[1]] + 1;
  const part = {
    ...design,
    x: design.x.slice(0, end),
    y: design.y.slice(0, end),
    kind: design.kind.slice(0, end),
    thread: null,
  };
  return SHOP.vet(part, { file: fileOf('name-drop.dst') });
}

const kindsOf = ({ search }: Advice) =>
  search.plans.flatMap(({ stack }) => stack.map(({ sheet }) => CATALOGUE.sheets[sheet].kind));
const text = (stack: readonly { sheet: string; angleDeg: number }[]) =>
  stack.map(({ sheet, angleDeg }) => `${sheet}@${angleDeg}`);

/** Fabrics of which something is known that no rule says of all; the others wait for the long runs. */
const TOLD_OF = [
  ...['pique-knit', 'performance-knit', 'performance-knit-thin', 'fleece', 'fine-sweater'],
  ...['terry-towel', 'sheer-linen', 'canvas-tote', 'cap-unstructured'],
];
const FABRICS = Object.values(CATALOGUE.fabrics).filter(({ id }) => IN_FULL || TOLD_OF.includes(id));

describe('the name drop, 19 mm satin letters over double zigzag', () => {
  let name: Vetting;
  const plans = new Map<string, Advice>();
  beforeAll(async () => {
    // Its first letters swing in several directions, as all of it does; the whole name waits for the long runs.
    const whole = await vetted('name-drop.dst');
    name = IN_FULL ? whole : upTo(whole, 2);
    for (const { id } of FABRICS) plans.set(id, SHOP.advise(name, { fabric: id }));
  }, 600_000);
  const on = (fabric: string): Advice => plans.get(fabric)!;
  const best = (fabric: string) => on(fabric).search.recommended;

  it.each(FABRICS.filter(({ stretchy }) => stretchy))(
    'a fabric with any stretch takes sheets that stay: $id',
    ({ id }) => {
      for (const kind of kindsOf(on(id))) expect(['cut-away', 'woven']).toContain(kind);
    },
  );

  it.each(FABRICS.filter(({ rigid }) => rigid))(
    'a fabric without any stretch takes a tear-away: $id',
    ({ id }) => {
      expect(best(id).stack.length).toBe(1);
      for (const kind of kindsOf(on(id))) expect(kind).toBe('tear-away');
    },
  );

  it('in doubt: one cut-away of 2.5 oz', () => {
    for (const fabric of ['pique-knit', 'fleece', 'fine-sweater'])
      expect(text(best(fabric).stack)).toEqual(['cutaway-2.5oz@0']);
  });

  it('sheer linen takes a crisp tear-away, a towel a film, a soft cap two pieces of cap backing', () => {
    for (const { stack } of on('sheer-linen').search.plans)
      for (const { sheet } of stack) expect(sheet).toBe('tearaway-1.8oz-crisp');
    expect(text(best('terry-towel').stack)).toEqual(['soluble-film@0']);
    expect(text(best('cap-unstructured').stack)).toEqual(['cap-backing@0', 'cap-backing@0']);
    expect(best('cap-unstructured').hooping[0].code).toBe('on-cap-frame');
    for (const { stack } of on('cap-unstructured').search.plans)
      expect(stack.length).toBeGreaterThanOrEqual(2);
  });

  it('performance knit takes two woven sheets, the second turned', () => {
    expect(text(best('performance-knit').stack)).toEqual(['woven-polyester@0', 'woven-polyester@45']);
  });

  it('the thinnest knit takes a bonded sheet between two woven ones', () => {
    expect(text(best('performance-knit-thin').stack)).toEqual([
      'woven-polyester@0',
      'cutaway-2.5oz@0',
      'woven-polyester@45',
    ]);
    // A fill, by itself or along the edges, where the file is changed at all.
    for (const { to } of best('performance-knit-thin').underlay) expect(to).toMatch(/fill$/);
  });

  it.runIf(IN_FULL)(
    'stretch scrubs follow the thin knits, classic scrubs hold a small logo on tear-away',
    () => {
      for (const { stack } of on('stretch-scrub').search.plans)
        expect(stack.some(({ sheet }) => sheet === 'woven-polyester')).toBe(true);
      expect(text(best('woven-scrub').stack)).toEqual(['tearaway-1.8oz-firm@0']);
    },
  );

  it('toppings: film on pile and open knits, one that heat removes on what must not get wet', () => {
    for (const fabric of ['terry-towel', 'fleece', 'pique-knit'])
      expect(best(fabric).topping).toBe('soluble-film');
    expect(best('fine-sweater').topping).toBe('heat-film');
    for (const { stack } of on('fine-sweater').search.plans)
      for (const { sheet } of stack) expect(CATALOGUE.sheets[sheet].kind).not.toBe('soluble');
    expect(best('canvas-tote').topping).toBeNull();
  });

  it('ball points on knits, sharps on wovens and caps', () => {
    for (const { id, structure, cap } of FABRICS) {
      const point = CATALOGUE.needles[on(id).search.plans[0].needle].point;
      expect(point, id).toBe(structure === 'knit' && !cap ? 'ball' : 'sharp');
    }
  });

  it('nothing is said that does not fit how a fabric is held: pile is not hooped firm, firm cloth and caps keep no hoop marks', () => {
    const firm = ['poplin', 'twill', 'denim', 'canvas-tote', 'woven-scrub', 'softshell'];
    for (const { id, pile, cap } of FABRICS) {
      const codes = best(id).hooping.map(({ code }) => code);
      if (pile) expect(codes, id).not.toContain('flat-and-firm');
      if (cap || firm.includes(id)) expect(codes, id).not.toContain('hoop-marks');
      else
        expect(
          codes.some((code) => code.startsWith('hoop-marks')),
          id,
        ).toBe(true);
    }
  });

  it('hoop marks come out with spray starch', () => {
    expect(best('performance-knit').hooping).toContainEqual({
      code: 'hoop-marks',
      params: { washable: true },
    });
  });

  it('what is recommended is on the front, and is said to meet the standard only where it surely does', () => {
    const { grade, washedGrade } = BUILT_IN_FIGURES.accept;
    const told = new Set<string>();
    for (const [fabric, { search }] of plans) {
      const { recommended, meets } = search;
      told.add(meets);
      expect(search.plans, fabric).toContain(recommended);
      expect(search.plans.map(({ cost }) => cost.total)).toEqual(
        search.plans.map(({ cost }) => cost.total).toSorted((a, b) => a - b),
      );
      if (meets !== 'yes') continue;
      expect(recommended.riskNow.grade).toBeGreaterThanOrEqual(grade);
      expect(recommended.riskWashed.grade).toBeGreaterThanOrEqual(washedGrade);
    }
    expect(told).toContain('yes');
  });

  it('a plan has one figure wherever it is told of: at the top, in the reasons, in the table and as data', async () => {
    const hundredths = (mm: number) => Number(mm.toFixed(2));
    for (const advice of plans.values()) {
      const report = SHOP.adviseReport(fileOf('name-drop.dst'), advice, []);
      const told = adviseToText(report, { width: 80, units: 'mm' }, true).replace(/\s+/g, ' ');
      const shown = report.recommended;
      for (const { wrinkleMm } of [shown.riskNow, shown.riskWashed])
        expect(told).toContain(
          hundredths(wrinkleMm) > 0
            ? `wrinkles about ${wrinkleMm.toFixed(2)} mm high`
            : 'no wrinkles predicted',
        );
      for (const plan of report.plans)
        if (plan !== shown)
          expect(told).toContain(` ${plan.riskNow.grade} / ${plan.riskNow.wrinkleMm.toFixed(2)} `);
    }
  });

  it('the plan that is recommended has the height of a solve for it alone, on the hoop of the plan', () => {
    for (const fabric of IN_FULL ? ['pique-knit', 'performance-knit-thin'] : ['performance-knit-thin']) {
      const { stack, underlay, riskNow, riskWashed } = best(fabric);
      const design = relaid(name, new Map(underlay.map(({ object, to }) => [object, to])));
      const prepared = prepare({ ...design, hoop: on(fabric).hoop! }, SHOP.catalogue);
      for (const { washes, wrinkleMm } of [riskNow, riskWashed]) {
        const alone = assess(prepared, { fabric, stack, washes }, SHOP).wrinkleMm;
        // Threads are told taut from slack on another way there.
        expect(Math.abs(wrinkleMm - alone), fabric).toBeLessThan(0.01);
      }
    }
  });
});

// The same rules over stitching of thousands of needle points; what a crest costs, too.
describe.skipIf(!IN_FULL)('other samples', () => {
  it.each([
    ['towel-monogram.dst', 'terry-towel', ['tearaway-1.8oz-firm@0'], 'soluble-film'],
    ['cap-front.dst', 'cap-unstructured', ['cap-backing@0', 'cap-backing@0'], null],
    ['crest.dst', 'canvas-tote', ['tearaway-1.8oz-firm@0'], null],
  ] as const)('%s on %s', async (name, fabric, stack, topping) => {
    const { search } = SHOP.advise(await vetted(name), { fabric });
    expect(text(search.recommended.stack)).toEqual(stack);
    expect(search.recommended.topping).toBe(topping);
  });

  it('a small crest on a knit polo comes to 0.20 to 0.30 for backing, bobbin and thread', async () => {
    const { search } = SHOP.advise(await vetted('crest.dst'), {
      fabric: 'pique-knit',
      stack: 'cutaway-2.5oz',
    });
    const { backing, thread, parts } = search.plans[0].cost;
    expect(backing - parts.topping + thread).toBeGreaterThan(0.2);
    expect(backing - parts.topping + thread).toBeLessThan(0.3);
  });
});
