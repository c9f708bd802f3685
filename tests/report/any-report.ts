import fc from 'fast-check';
import type {
  DesignRiskReport,
  FindingReport,
  ObjectReport,
  ObjectRiskReport,
  VetReport,
} from '../../lib/report/vet/report.js';

/** Reports of designs that nobody would sew: odd names, huge and tiny figures, any number of objects and findings. */

const mm = (max: number) => fc.integer({ min: 0, max: max * 1000 }).map((n) => n / 1000);
const spread = (max: number) =>
  fc.tuple(mm(max), mm(max), mm(max), mm(max)).map((values) => {
    const [min, median, p95, top] = values.sort((a, b) => a - b);
    return { min, median, p95, max: top };
  });

/** Words by which a test knows a figure that went wrong. */
export const WENT_WRONG = /NaN|Infinity|undefined|\[object/;

export const anyName = fc
  .array(
    fc.oneof(
      fc.string({ maxLength: 30 }),
      fc.constantFrom(
        '\u001b[31mred\u001b[0m',
        '\u202e',
        '刺繡圖案',
        '🧵🪡',
        'order 7/',
        'a'.repeat(120),
        '\n',
        '\u0007',
        '<b>&"',
      ),
    ),
    { minLength: 1, maxLength: 6 },
  )
  .map((parts) => `${parts.join('')}.dst`)
  // A random name spells one of them now and then.
  .filter((name) => !WENT_WRONG.test(name));

const grade = fc.integer({ min: 2, max: 10 }).map((n) => n / 2);
const pair = (max: number) =>
  fc.tuple(mm(max), mm(max)).map(([a, b]): [number, number] => (a < b ? [a, b] : [b, a]));
const anyRisk: fc.Arbitrary<ObjectRiskReport> = fc.record({
  score: mm(100),
  grade,
  pullInMm: mm(9),
  wrinkleMm: mm(9),
  wrinkleBandMm: fc.tuple(mm(9), mm(9), mm(9)),
  range: fc.record({
    score: pair(100),
    wrinkleMm: pair(9),
    grade: fc.tuple(grade, grade).map(([a, b]): [number, number] => (a < b ? [a, b] : [b, a])),
  }),
  drivers: fc
    .subarray(['width', 'spacing', 'underlay', 'layers', 'fabric', 'backing', 'laundering', 'hooping'])
    .map((causes) => causes.map((cause) => ({ cause, share: 1 / causes.length }))),
});
const anyDesignRisk: fc.Arbitrary<DesignRiskReport> = fc
  .tuple(anyRisk, anyName, anyName, fc.boolean())
  .map(([risk, fabricName, stackName, stackGiven]) => ({
    ...risk,
    conditions: {
      fabric: 'pique-knit',
      fabricName,
      garment: stackGiven ? null : { name: stackName, madeOf: fabricName, takenAs: null },
      stack: [],
      stackText: 'none',
      stackName,
      stackGiven,
      grainDeg: 90,
      hoopStretchPercent: 0,
      washes: 0,
      thread: 'polyester-40',
      threadName: fabricName,
    },
  }));

const anyObject: fc.Arbitrary<Omit<ObjectReport, 'id'>> = fc.record({
  block: fc.integer({ min: 1, max: 99 }),
  group: fc.integer({ min: 1, max: 999 }),
  kind: fc.constantFrom('satin', 'fill', 'run'),
  stitchRange: fc.tuple(fc.nat(9), fc.integer({ min: 10, max: 999_999 })),
  stitches: fc.nat(999_999),
  bounds: fc.tuple(mm(900), mm(900), mm(300), mm(300)).map(([x, y, w, h]) => ({
    minX: x - 450,
    minY: y - 450,
    maxX: x - 450 + w,
    maxY: y - 450 + h,
  })),
  areaMm2: mm(50_000),
  angleDeg: fc.option(mm(179)),
  widthMm: fc.option(spread(40)),
  spacingMm: fc.option(spread(5).map(({ min, median, max }) => ({ min, median, max }))),
  stitchLengthMm: spread(12).map(({ min, median, max }) => ({ min, median, max })),
  densityPerMm2: mm(30),
  split: fc.boolean(),
  locks: fc.record({ start: fc.boolean(), end: fc.boolean() }),
  purpose: fc.constantFrom('top', 'placement', 'tack-down', 'edging', 'net', 'decorative'),
  pattern: fc.option(fc.constantFrom('rows', 'curved', 'spiral', 'outline', 'radial', 'loose')),
  passes: fc.integer({ min: 1, max: 4 }),
  confidence: mm(1),
  doubt: fc.option(
    fc.record({ could: fc.constantFrom('satin', 'fill', 'run', 'net', 'underlay'), margin: mm(1) }),
  ),
  setByShop: fc.boolean(),
  underlay: fc.record({
    id: fc.constant(null),
    kinds: fc
      .subarray(['center-run', 'edge-run', 'zigzag', 'double-zigzag', 'fill'] as const)
      .map((k) => [...k]),
    stitchRange: fc.constant(null),
    stitches: fc.nat(9999),
    spacingMm: fc.option(mm(9)),
  }),
  risk: fc.option(anyRisk),
  advice: fc.constant(null),
});

/** A code with the figures that go with it. */
const anyKind = fc.oneof(
  mm(99).map(
    (widthMm) => ({ code: 'satin-too-wide', params: { widthMm, past: 'snag', over: null } }) as const,
  ),
  fc
    .tuple(fc.nat(9999), mm(9), mm(9))
    .map(
      ([count, limitMm, shortestMm]) =>
        ({ code: 'stitch-too-short', params: { count, limitMm, shortestMm } }) as const,
    ),
  fc.tuple(anyName, fc.option(fc.nat(99_999)), fc.nat(99), fc.boolean()).map(
    ([key, byte, more, cutOff]) =>
      ({
        code: 'file-header-field-extra',
        params: { keys: [key], byte, line: null, more, cutOff },
      }) as const,
  ),
  mm(99).map(
    (sizeMm) =>
      ({
        code: 'does-not-fit-hoop',
        params: { hoop: 'a'.repeat(100), side: 'across', sizeMm, fieldMm: 9, turned: false },
      }) as const,
  ),
);

const anyFinding = (objects: number): fc.Arbitrary<FindingReport> =>
  fc
    .tuple(
      anyKind,
      fc.record({
        severity: fc.constantFrom('note', 'warn', 'fail'),
        object: objects > 0 ? fc.option(fc.integer({ min: 1, max: objects })) : fc.constant(null),
        stitch: fc.option(fc.nat(999_999)),
        at: fc.option(fc.tuple(mm(900), mm(900)).map(([x, y]) => ({ x, y: y - 450 }))),
        measured: fc.oneof(mm(99), fc.constant('ST:\u001b]0;x\u0007'), fc.constant(null)),
        limit: fc.oneof(mm(99), fc.constant(null)),
        unit: fc.constantFrom('mm', null),
        message: fc.oneof(fc.lorem({ maxCount: 60 }), anyName),
        basis: fc.constant('invented'),
        fix: fc.constant(null),
        unsure: fc.boolean(),
      }),
    )
    .map(([kind, found]) => ({ ...found, ...kind }));

export const anyReport: fc.Arbitrary<VetReport> = fc
  .tuple(anyName, fc.array(anyObject, { maxLength: 60 }))
  .chain(([path, objects]) =>
    fc.record({
      schema: fc.constant('lieflat/vet@1' as const),
      file: fc.constant({ path, format: 'dst' as const, bytes: 512, sha256: '0'.repeat(64) }),
      design: fc.record({
        stitches: fc.nat(9_999_999),
        jumps: fc.nat(9_999_999),
        trims: fc.nat(999_999),
        colourChanges: fc.nat(9999),
        stops: fc.nat(9999),
        bounds: fc.constant({ minX: -450, minY: -450, maxX: 750, maxY: 750 }),
        widthMm: mm(9999),
        heightMm: mm(9999),
        threadMm: mm(9_999_999),
        bobbinMm: mm(9_999_999),
        sewSeconds: mm(999_999),
        sewSpeedSpm: mm(2000),
      }),
      objects: fc.constant(objects.map((object, i) => ({ id: i + 1, ...object }))),
      underlays: fc.constant([]),
      setObjects: fc.array(
        fc.record({
          object: fc.option(fc.integer({ min: 1, max: 999 })),
          stitchRange: fc.tuple(fc.nat(9), fc.integer({ min: 10, max: 999_999 })),
          is: fc.constantFrom(['underlay' as const], ['satin' as const, 'decorative' as const]),
          done: fc.boolean(),
          why: fc.option(fc.lorem()),
        }),
        { maxLength: 3 },
      ),
      findings: fc.array(anyFinding(objects.length), { maxLength: 40 }),
      risk: fc.option(anyDesignRisk),
      advice: fc.constant(null),
    }),
  );
