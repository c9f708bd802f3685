import { z } from 'zod';

/** The promised shape of the vet report, written anew from its description: every name, and nothing renamed. */
const length = z.number().min(0);
const index = z.number().int().min(0);
const id = z.number().int().min(1);
const range = z
  .tuple([index, index])
  .refine(([first, last]) => first <= last, 'a range holds both ends in order');
const bounds = z
  .strictObject({ minX: z.number(), minY: z.number(), maxX: z.number(), maxY: z.number() })
  .refine((b) => b.minX <= b.maxX && b.minY <= b.maxY);
const angle = z.number().min(0).lt(180);
const risk = z.object({
  score: z.number().min(0).max(100),
  grade: z.number().min(1).max(5),
  pullInMm: z.number(),
  wrinkleMm: length,
});

const drivers = z
  .array(z.object({ cause: z.string().min(1), share: z.number().min(0).max(1) }))
  .refine((list) => list.every(({ share }, i) => i === 0 || share <= list[i - 1].share), 'strongest first');

const underlayKind = z.enum(['center-run', 'edge-run', 'zigzag', 'double-zigzag', 'fill']);

const underlay = z.object({
  id,
  kinds: z.array(underlayKind).min(1),
  stitchRange: range,
  serves: z.array(id).min(1),
});

const object = z.object({
  id,
  block: id,
  group: id,
  kind: z.enum(['satin', 'fill', 'run']),
  stitchRange: range,
  stitches: index,
  bounds,
  areaMm2: length,
  angleDeg: angle.nullable(),
  widthMm: z.object({ min: length, median: length, p95: length, max: length }).nullable(),
  spacingMm: z.object({ min: length, median: length, max: length }).nullable(),
  stitchLengthMm: z.object({ min: length, median: length, max: length }),
  densityPerMm2: length,
  split: z.boolean(),
  locks: z.object({ start: z.boolean(), end: z.boolean() }),
  purpose: z.enum(['top', 'placement', 'tack-down', 'edging', 'net', 'decorative']),
  pattern: z.enum(['rows', 'curved', 'spiral', 'outline', 'radial', 'loose']).nullable(),
  passes: z.number().int().min(1),
  confidence: z.number().min(0).max(1),
  doubt: z.object({ could: z.string().min(1), margin: z.number().min(0).max(1) }).nullable(),
  underlay: z.object({
    id: id.nullable(),
    kinds: z.array(underlayKind),
    stitchRange: range.nullable(),
    stitches: index,
    spacingMm: length.nullable(),
  }),
  risk: risk.extend({ drivers }).nullable(),
  advice: z.record(z.string(), z.unknown()).nullable(),
  setByShop: z.boolean(),
});

const finding = z.object({
  code: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  severity: z.enum(['note', 'warn', 'fail']),
  object: id.nullable(),
  stitch: index.nullable(),
  at: z.object({ x: z.number(), y: z.number() }).nullable(),
  measured: z.union([z.number(), z.string(), z.null()]),
  limit: z.union([z.number(), z.string(), z.null()]),
  unit: z.string().nullable(),
  message: z.string().min(1),
  basis: z.string().min(1),
  params: z.record(z.string(), z.union([z.number(), z.string(), z.boolean(), z.null(), z.array(z.string())])),
  fix: z.looseObject({ do: z.string().regex(/^[a-z]+(-[a-z]+)*$/) }).nullable(),
  unsure: z.boolean(),
});

export const VET_CONTRACT = z
  .object({
    schema: z.literal('lieflat/vet@1'),
    file: z.object({
      path: z.string(),
      format: z.enum(['dst', 'csv']),
      bytes: index,
      sha256: z.string().regex(/^[0-9a-f]{64}$/),
    }),
    design: z.object({
      stitches: index,
      jumps: index,
      trims: index,
      colourChanges: index,
      stops: index,
      bounds,
      widthMm: length,
      heightMm: length,
      threadMm: length,
      bobbinMm: length,
      sewSeconds: length,
      sewSpeedSpm: length,
    }),
    objects: z.array(object),
    underlays: z.array(underlay),
    findings: z.array(finding),
    risk: risk.nullable(),
    advice: z.record(z.string(), z.unknown()).nullable(),
    setObjects: z.array(
      z.object({
        object: id.nullable(),
        stitchRange: range,
        is: z.array(z.string().min(1)).min(1),
        done: z.boolean(),
        why: z.string().min(1).nullable(),
      }),
    ),
  })
  .superRefine((report, context) => {
    const ids = report.objects.map((o) => o.id);
    // What a shop has set to underlay is no object any more, and keeps its number.
    const numbered = report.setObjects.flatMap(({ object, is, done }) =>
      done && object !== null && is.includes('underlay') ? [object] : [],
    );
    const all = [...ids, ...numbered].sort((a, b) => a - b);
    if (all.some((objectId, i) => objectId !== i + 1)) context.addIssue('objects are numbered from 1');
    for (const f of report.findings) {
      if (f.object !== null && !ids.includes(f.object)) context.addIssue(`${f.code} is of no object`);
    }
    for (const o of report.objects) {
      const lies = report.underlays.filter(({ serves }) => serves.includes(o.id));
      if (o.underlay.id === null ? lies.length > 0 : !lies.some(({ id }) => id === o.underlay.id)) {
        context.addIssue(`the underlay of object ${o.id} is not among those listed`);
      }
    }
  });

const lowHigh = z.tuple([length, length]).refine(([low, high]) => low <= high, 'low before high');
const fabrics = z.enum(
  'pique-knit jersey-knit performance-knit performance-knit-thin stretch-scrub woven-scrub poplin twill denim canvas-tote fleece terry-towel sheer-linen fine-sweater cap-structured cap-unstructured'.split(
    ' ',
  ),
);
const sheets = z.enum(
  'cutaway-2.5oz cutaway-3oz cutaway-3.5oz tearaway-1.8oz-firm tearaway-1.8oz-crisp cap-backing woven-polyester soluble-film'.split(
    ' ',
  ),
);

/** The promised shape of the report of one risk. */
export const PUCKER_CONTRACT = z.object({
  schema: z.literal('lieflat/pucker@1'),
  file: z.object({ path: z.string() }),
  fabric: fabrics,
  stack: z.array(z.object({ sheet: sheets, angleDeg: z.number() })),
  risk: risk
    .extend({ range: z.object({ score: lowHigh, wrinkleMm: lowHigh }), drivers })
    .refine((r) => r.range.score[0] <= r.score && r.score <= r.range.score[1], 'the range holds the score')
    .refine(
      (r) => r.range.wrinkleMm[0] <= r.wrinkleMm && r.wrinkleMm <= r.range.wrinkleMm[1],
      'the range holds the height',
    ),
  objects: z.array(z.object({ id, risk: risk.extend({ drivers }) })),
});

/** The order of the names in print, one list a level. */
export const KEY_ORDER = {
  report: ['schema', 'file', 'design', 'objects', 'underlays', 'findings', 'risk', 'advice', 'setObjects'],
  design: [
    'stitches',
    'jumps',
    'trims',
    'colourChanges',
    'stops',
    'bounds',
    'widthMm',
    'heightMm',
    'threadMm',
    'bobbinMm',
    'sewSeconds',
    'sewSpeedSpm',
  ],
  object: [
    'id',
    'block',
    'group',
    'kind',
    'stitchRange',
    'stitches',
    'bounds',
    'areaMm2',
    'angleDeg',
    'widthMm',
    'spacingMm',
    'stitchLengthMm',
    'densityPerMm2',
    'split',
    'locks',
    'purpose',
    'pattern',
    'passes',
    'confidence',
    'doubt',
    'underlay',
    'risk',
    'advice',
    'setByShop',
  ],
  finding: [
    'code',
    'severity',
    'object',
    'stitch',
    'at',
    'measured',
    'limit',
    'unit',
    'message',
    'basis',
    'params',
    'fix',
    'unsure',
  ],
};

const stacked = z.array(z.strictObject({ sheet: z.string().min(1), angleDeg: z.number() }));
const money = z.number().min(0);
const plan = z.object({
  stack: stacked,
  topping: z.string().nullable(),
  underlay: z.array(z.object({ object: id, to: z.string().min(1) })),
  needle: z.string().min(1),
  speedSpm: z.number().positive(),
  hooping: z.array(z.string().min(1)).min(1),
  cost: z
    .object({
      total: money,
      backing: money,
      thread: money,
      machine: money,
      currency: z.string().regex(/^[A-Z]{3}$/),
    })
    .refine(
      (c) => Math.abs(c.total - c.backing - c.thread - c.machine) < 1e-9,
      'a total is that of its parts',
    ),
  riskNow: risk,
  riskWashed: risk,
  why: z.array(z.string().min(1)).min(1),
});

/** The promised shape of the plans, likewise written anew. */
export const ADVISE_CONTRACT = z
  .object({
    schema: z.literal('lieflat/advise@1'),
    file: z.object({ path: z.string().min(1) }),
    fabric: z.string().min(1),
    recommended: plan.nullable(),
    meets: z.enum(['yes', 'may', 'no']),
    plans: z
      .array(plan)
      .min(1)
      .refine((list) => list.every((p, i) => i === 0 || p.cost.total >= list[i - 1].cost.total), 'by cost'),
  })
  .refine(
    ({ recommended, plans }) =>
      recommended === null || plans.some((p) => JSON.stringify(p) === JSON.stringify(recommended)),
    'what is recommended is one of the plans',
  );

const factor = z.number().min(1).max(1.25);

/** The promised shape of the cover report. */
export const RESEW_CONTRACT = z
  .looseObject({
    schema: z.literal('lieflat/resew@1'),
    mode: z.enum(['machine', 'regenerate', 'widen']),
    scale: factor,
    holes: z.strictObject({ total: index, hidden: index, exposed: index }),
    exposed: z.array(z.looseObject({ x: z.number(), y: z.number(), gapMm: length.nullable() })),
    smallestScaleThatHides: factor.nullable(),
    stitchesBefore: index,
    stitchesAfter: index,
    spacingBeforeMm: length.nullable(),
    spacingAfterMm: length.nullable(),
    threadWidthMm: length,
    findings: z.array(finding),
  })
  .refine(({ holes: { total, hidden, exposed } }) => total === hidden + exposed)
  .refine(({ holes, exposed }) => holes.exposed === exposed.length);
