/** What a profile may say: the one description that it is checked against, and that editors are given as a JSON Schema. */
import type { Shelf } from '../materials/catalogue.js';
import { COMMERCIAL_HEAD } from '../materials/machine.js';
import { USUAL_THREAD_USE } from '../materials/thread-use.js';
import { LIMITS, type Limit } from '../vetting/limits.js';
import { CALIBRATION_KEYS, MACHINE_KEYS, THREAD_KEYS } from './keys.js';

/** No figure of a shop is near it: a larger one is a slip. */
export const LARGEST = 1e6;

const limitWords = ({ meaning, unit, side, note, warn, fail, basis }: Limit): string =>
  `${meaning}. In ${unit}, ${side} which something is said; built in: note ${note ?? 'never'}, warn ${warn ?? 'never'}, fail ${fail ?? 'never'} (${basis}).`;

/** The schema as zod has it. */
export async function profileSchema() {
  const { z } = await import('zod');
  const number = z.number().min(-LARGEST).max(LARGEST);
  const positive = z.number().positive().max(LARGEST);
  const price = z.number().min(0).max(LARGEST);
  const grade = z.number().min(1).max(5).multipleOf(0.5);
  const step = number.nullable().optional();
  const steps = z.strictObject({ note: step, warn: step, fail: step });
  const figure = z.strictObject({
    value: number,
    low: number.optional(),
    high: number.optional(),
    basis: z.string().optional(),
  });
  const each = <K extends string, T>(keys: readonly K[], value: (key: K) => T): Record<string, T> =>
    Object.fromEntries(keys.map((key) => [key, value(key)]));
  // What a word may be is told here; numbers and names of fields are told by the catalogue itself.
  const words = {
    fabrics: z.looseObject({ structure: z.enum(['knit', 'woven']).optional() }),
    sheets: z.looseObject({ kind: z.enum(['cut-away', 'tear-away', 'woven', 'soluble']).optional() }),
    toppings: z.looseObject({ removedBy: z.enum(['water', 'heat']).optional() }),
    threads: z.looseObject({
      weight: z.literal([40, 60]).optional(),
      fibre: z.enum(['polyester', 'rayon']).optional(),
    }),
    needles: z.looseObject({ point: z.enum(['sharp', 'ball']).optional() }),
  } satisfies Record<Shelf, unknown>;
  const id = z
    .string()
    .regex(/^[a-z0-9]+([.-][a-z0-9]+)*$/, 'an id is small letters, digits, hyphens and points');
  return z.strictObject({
    $schema: z.string().optional().describe('Where editors find what a profile may say.'),
    limits: z
      .strictObject(
        each(Object.keys(LIMITS) as (keyof typeof LIMITS)[], (key) =>
          z.union([number, steps]).optional().describe(limitWords(LIMITS[key])),
        ),
      )
      .optional()
      .describe(
        'From where on something is said: a number moves the mildest step, or give note, warn and fail.',
      ),
    machine: z
      .strictObject(
        each(MACHINE_KEYS, (key) =>
          positive
            .optional()
            .describe(`In ${COMMERCIAL_HEAD[key].unit}; built in: ${COMMERCIAL_HEAD[key].value}.`),
        ),
      )
      .optional()
      .describe('The head that sews.'),
    thread: z
      .strictObject(
        each(THREAD_KEYS, (key) =>
          positive
            .optional()
            .describe(
              key === 'thicknessMm'
                ? `Thickness of goods and backing that a stitch goes through, mm; built in: ${USUAL_THREAD_USE.thicknessMm.value}.`
                : 'Length of bobbin thread for each length of top thread; built in: a third.',
            ),
        ),
      )
      .optional()
      .describe('What thread a design takes.'),
    places: z
      .record(
        z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an id is small letters, digits and single hyphens'),
        z.strictObject({
          name: z.string().min(1).optional(),
          widthMm: positive,
          heightMm: positive,
          frame: z.boolean().optional(),
        }),
      )
      .optional()
      .describe('Places on garments by id, and how large designs there may be.'),
    catalogue: z
      .strictObject({
        fabrics: z.record(id, words.fabrics).optional(),
        sheets: z.record(id, words.sheets).optional(),
        toppings: z.record(id, words.toppings).optional(),
        threads: z.record(id, words.threads).optional(),
        needles: z.record(id, words.needles).optional(),
      })
      .optional()
      .describe("The shop's own materials: a built-in id needs only what differs, a new one every field."),
    calibration: z
      .strictObject(each(CALIBRATION_KEYS, () => z.union([number, figure]).optional()))
      .optional()
      .describe('Parameters of the pucker model, as lieflat calibrate writes them.'),
    prices: z
      .strictObject({
        currency: z
          .string()
          .regex(/^[A-Z]{3}$/, 'a currency is three capitals, as USD')
          .optional(),
        sheets: z.record(id, price).optional(),
        toppings: z.record(id, price).optional(),
        threadPer1000m: price.optional(),
        bobbinPer1000m: price.optional(),
        machinePerHour: price.optional(),
      })
      .optional()
      .describe('What things cost; sheets and toppings by id, for a piece that fits a left-chest hoop.'),
    accept: z
      .strictObject({
        grade: grade.optional(),
        washedGrade: grade.optional(),
        washes: z.number().int().min(0).max(200).optional(),
      })
      .optional()
      .describe('The lowest grades (5 smooth, 1 severe) that may leave the shop, as sewn and after washes.'),
  });
}

/** The same as JSON Schema (draft 2020-12). */
export async function profileJsonSchema(): Promise<object> {
  const { z } = await import('zod');
  return { title: 'lieflat profile', ...z.toJSONSchema(await profileSchema(), { io: 'input' }) };
}
