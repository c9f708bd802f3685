/** What the JSON of every form must be: the contract where it says so, else every name that people rely on. */
import { z } from 'zod';
import { ADVISE_CONTRACT, PUCKER_CONTRACT, RESEW_CONTRACT, VET_CONTRACT } from '../../report/contract.js';

const index = z.number().int().min(0);
const id = z.number().int().min(1);
const length = z.number().min(0);
const at = z.object({ x: z.number(), y: z.number() });
const file = z.object({
  path: z.string(),
  format: z.enum(['dst', 'csv']),
  bytes: index,
  sha256: z.string().length(64),
});
const risk = z.object({
  score: z.number().min(0).max(100),
  grade: z.number().min(1).max(5),
  pullInMm: z.number(),
  wrinkleMm: length,
});
const severities = z.object({ fail: index, warn: index, note: index });
const underlay = z.object({ kinds: z.array(z.string()), spacingMm: length.nullable() });
const riskChange = z.object({
  before: risk,
  after: risk,
  flatter: z.enum(['before', 'after']).nullable(),
  tooCloseToCall: z.boolean(),
});
const sourced = z.object({ value: z.number(), low: z.number(), high: z.number(), basis: z.string().min(1) });
const shelf = z.record(z.string(), z.looseObject({ id: z.string(), name: z.string() })).optional();

const columns = z.object({
  file,
  overMm: length.nullable(),
  columns: z
    .array(
      z.object({
        object: id,
        block: id,
        group: id,
        stitch: index,
        at,
        lengthMm: length,
        widthMm: z.object({ min: length, median: length, p95: length, max: length }),
        spacingMm: z.object({ min: length, median: length, max: length }).nullable(),
        split: z.boolean(),
        underlay,
        foreseen: z.object({ now: risk, onAdvised: risk.nullable() }).nullable(),
      }),
    )
    .refine(
      (list) => list.every((c, i) => i === 0 || c.widthMm.p95 <= list[i - 1].widthMm.p95),
      'widest first',
    ),
  foreseen: z.object({ relaid: z.array(id), now: risk, onAdvised: risk.nullable() }).nullable(),
});

const sewn = z.object({ stitches: index, threadMm: length, risk: risk.nullable() });
const relaidColumn = sewn.extend({ densityPerMm2: length, underlay });
const relay = z.object({
  file,
  to: z.string(),
  design: z.object({
    before: sewn.extend({ jumps: index, trims: index }),
    after: sewn.extend({ jumps: index, trims: index }),
  }),
  objects: z.array(z.object({ object: id, at, widthMm: length, before: relaidColumn, after: relaidColumn })),
  left: z.array(z.object({ object: id, because: z.string(), reason: z.string().min(1) })),
  bare: z.array(id),
  findings: z.array(z.looseObject({ code: z.string() })),
  findingsGone: index,
  out: z.string().nullable(),
});

const compare = z.object({
  before: file,
  after: file,
  related: z.boolean(),
  risk: riskChange
    .extend({ objects: z.array(z.object({ before: id, after: id, risk: riskChange })) })
    .nullable(),
  design: z.array(z.object({ what: z.string(), before: z.number(), after: z.number() })),
  objects: z.object({
    before: index,
    after: index,
    unchanged: index,
    alike: index,
    changed: z.array(
      z.object({ before: id, after: id, changes: z.array(z.looseObject({ what: z.string() })).min(1) }),
    ),
    removed: z.array(id),
    added: z.array(id),
  }),
  findings: z.object({
    before: severities,
    after: severities,
    lost: z.array(z.unknown()),
    gained: z.array(z.unknown()),
  }),
});

const reply = z.object({
  file,
  items: z.array(
    z.object({
      number: id,
      code: z.string(),
      severity: z.enum(['fail', 'warn']),
      places: id,
      first: z.object({ block: id.nullable(), stitch: id.nullable(), at: at.nullable() }),
      relaid: z.enum(['fixed', 'partly', 'stays']).nullable(),
    }),
  ),
  minor: index,
  compensation: z.array(z.object({ mm: z.number().positive(), places: id })),
  fine: z.array(z.string()),
  changed: z
    .object({ done: z.boolean(), columns: id, fixed: z.array(z.string()), stays: z.array(z.string()) })
    .nullable(),
  threads: z.array(z.string()),
});

const histogram = z.object({ step: z.number().positive(), counts: z.array(index) });
const summary = z.looseObject({
  files: z.object({ vetted: index, sound: index, warn: index, fail: index, unread: index, skipped: index }),
  stitches: index,
  findings: z.array(z.object({ code: z.string(), severity: z.string(), files: id, times: id })),
  worst: z.array(
    z.object({ path: z.string(), found: severities, grade: z.number().min(1).max(5).nullable() }),
  ),
  columnWidthMm: histogram,
});

const calibrated = z.object({
  log: z.object({
    path: z.string(),
    used: id,
    settings: id,
    ungraded: z.array(id),
    faults: z.array(z.unknown()),
  }),
  parameters: z
    .array(
      z.object({
        name: z.string(),
        meaning: z.string().min(1),
        value: z.number(),
        low: z.number(),
        high: z.number(),
        interval: z.object({ low: z.number(), high: z.number(), level: z.number() }),
        told: z.number().min(0).max(1),
      }),
    )
    .min(1),
  errors: z.object({ before: length, fitted: length, leaveOneOut: length, oneGrade: length }),
  rows: z.array(z.object({ line: id, grade: z.number(), foretold: z.number(), residual: z.number() })),
});

const catalog = z.object({
  fabrics: shelf,
  sheets: shelf,
  toppings: shelf,
  threads: shelf,
  needles: shelf,
  places: z.array(z.looseObject({ id: z.string(), widthMm: sourced, heightMm: sourced })).optional(),
  hoops: z.array(z.looseObject({ id: z.string(), widthMm: sourced, heightMm: sourced })).optional(),
});

/** By what `schema` says. */
export const FORMS: Readonly<Record<string, z.ZodType>> = {
  'lieflat/vet@1': VET_CONTRACT,
  'lieflat/pucker@1': PUCKER_CONTRACT,
  'lieflat/pucker-comparison@1': z.object({
    file,
    reports: z.array(PUCKER_CONTRACT).min(2),
    ranking: z.array(
      z.object({
        stack: z.string(),
        report: index,
        wrinkleMm: length,
        fallToFlattest: z.number().min(0).max(1),
      }),
    ),
  }),
  'lieflat/advise@1': ADVISE_CONTRACT,
  'lieflat/resew@1': RESEW_CONTRACT,
  'lieflat/columns@1': columns,
  'lieflat/relay@1': relay,
  'lieflat/reply@1': reply,
  'lieflat/compare@1': compare,
  'lieflat/vet-summary@1': summary,
  'lieflat/calibrate@1': calibrated,
  'lieflat/profile@1': z.object({ path: z.string().nullable(), differences: z.array(z.unknown()) }),
  'lieflat/catalog@1': catalog,
};
