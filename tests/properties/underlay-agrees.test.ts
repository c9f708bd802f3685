/** On a fabric there is one decision for each column: the file check, the advice, the list of columns and a relaid file tell the same. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDesign } from '../../lib/format/decode.js';
import type { Design } from '../../lib/format/design.js';
import { columnsReport } from '../../lib/report/columns/report.js';
import type { RelayReport } from '../../lib/report/relay/report.js';
import { calledColumns, HEAVY_UNDERLAY } from '../../lib/vetting/columns-called.js';
import { type Finding, UNDERLAY_KEPT } from '../../lib/vetting/finding.js';
import { SHOP } from '../built-in-shop.js';
import { FAMILIES } from '../generators/families/index.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';

onACoarseMesh(2);

const file = { path: 'a.dst', format: 'dst', bytes: 1, sha256: '0' } as const;

/** A wide column with nothing under it, two over zigzag, and one that is narrow. */
const strokes = (): Design =>
  new Needle()
    .column(0, 0, { width: 5, height: 12 })
    .column(9, 0, { width: 5, height: 12, underlay: 'zigzag' })
    .column(18, 0, { width: 6.5, height: 12, underlay: 'zigzag' })
    .column(28, 0, { width: 2, height: 12, underlay: 'center-run' })
    .end();

const generated = (family: string, seed: number) => (): Design => FAMILIES[family](seed).design;
const sample = (name: string) => () =>
  decodeDesign(readFileSync(new URL(`../../samples/${name}.dst`, import.meta.url)), 'dst');

const families = Object.keys(FAMILIES);
const DESIGNS: readonly (readonly [string, () => Design | Promise<Design>])[] = [
  ['strokes', strokes],
  ...(IN_FULL
    ? [
        ...families.map((name) => [name, generated(name, 12)] as const),
        ...['name-drop', 'incoming', 'cap-front', 'crest', 'towel-monogram', 'jacket-back'].map(
          (name) => [name, sample(name)] as const,
        ),
      ]
    : []),
];
const FABRICS = [
  'performance-knit-thin',
  ...(IN_FULL ? ['canvas-tote', 'twill', 'pique-knit', 'denim', 'fleece'] : []),
];

const byNumber = (ids: Iterable<number>): number[] => [...ids].sort((a, b) => a - b);
const fixesOf = (findings: readonly Finding[]) =>
  new Map(
    findings.flatMap(({ fix }) =>
      fix?.do === 'relay' ? fix.objects.map((object) => [object, fix.to] as const) : [],
    ),
  );
const isKept = ({ because }: RelayReport['left'][number]) =>
  (UNDERLAY_KEPT as readonly string[]).includes(because);

describe.each(DESIGNS)('the columns of %s', (_, made) => {
  it('without a fabric: what the file check mends is what relaying changes', async () => {
    const design = await made();
    const { before, report } = await SHOP.relay(design, { file });
    const { heavy, bare } = calledColumns(before.findings);
    const called = byNumber([...heavy, ...bare]);
    expect(byNumber(fixesOf(before.findings).keys())).toEqual(called);
    expect(byNumber([...report.objects, ...report.left].map(({ object }) => object))).toEqual(called);
    expect(report.left.some(isKept)).toBe(false);
  });

  it.each(FABRICS)('on %s: all four agree, and whatever stays is named with its reason', async (fabric) => {
    const design = await made();
    const conditions = SHOP.conditions({ fabric });
    const checked = SHOP.vetOn(design, { file }, conditions);
    const { search, objects } = SHOP.advise(SHOP.vet(design, { file }), { fabric });
    const relaying = await SHOP.relay(design, { file }, { conditions });
    const plain = SHOP.vet(design, { file });
    const { columns, foreseen } = columnsReport(plain, null, SHOP.columnsRisk(plain, conditions));
    const { recommended, kept } = search;

    const laid = byNumber(recommended.underlay.map(({ object }) => object));
    const stays = byNumber(kept?.objects ?? []);
    const { heavy, bare } = calledColumns(plain.findings);
    expect(byNumber([...laid, ...stays])).toEqual(byNumber([...heavy, ...bare]));
    for (const id of bare) expect(laid).toContain(id);

    // The advice for each object, and the file check: what is mended and how, what stays and why.
    expect(byNumber(objects.flatMap(({ object, relay }) => (relay ? [object] : [])))).toEqual(laid);
    expect(fixesOf(checked.findings)).toEqual(
      new Map(recommended.underlay.map(({ object, to }) => [object, to])),
    );
    expect(checked.report.findings.map(({ code, severity }) => [code, severity])).toEqual(
      checked.findings.map(({ code, severity }) => [code, severity]),
    );
    for (const finding of checked.findings)
      if (finding.code === HEAVY_UNDERLAY && stays.includes(finding.object!))
        expect([finding.severity, finding.params.kept, finding.fix]).toEqual(['note', kept!.because, null]);

    // The list of columns.
    const listed = columns.filter((c) => c.lighterUnderlay !== null || c.missingUnderlay !== null);
    const unsure = plain.findings.flatMap((f) => (f.unsure && f.object !== null ? [f.object] : []));
    expect(byNumber(listed.map((c) => c.object).filter((id) => !unsure.includes(id)))).toEqual(laid);
    expect(byNumber(columns.flatMap((c) => (c.keptUnderlay ? [c.object] : [])))).toEqual(stays);
    expect(byNumber(foreseen!.relaid)).toEqual(laid);

    // The file that is relaid.
    const { report } = relaying;
    const technical = report.left.filter((one) => !isKept(one));
    expect(byNumber([...report.objects, ...technical].map(({ object }) => object))).toEqual(laid);
    expect(report.left.filter(isKept).map(({ object, because }) => [object, because])).toEqual(
      stays.map((object) => [object, kept!.because]),
    );
    if (laid.length > 0) expect(report.to).toBe(recommended.underlay[0].to);
  });
});
