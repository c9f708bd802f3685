/** What a description of the profile is made of: a value with its unit, what is built in, what that rests on, and words for people. */
import type { Sourced } from '../core/sourced.js';
import { type Limit, STEPS } from '../vetting/limits.js';
import { outOfOrder, withSteps } from './own-limit.js';

export type Zod = typeof import('zod');

/** What is told of a place of the profile. */
export interface ProfileSetting {
  /** What it is, for people. */
  readonly words: string;
  readonly unit?: string;
  /** As the profile would say it; left out where nothing is built in. */
  readonly builtIn?: unknown;
  /** Between which it usually lies. */
  readonly usual?: readonly [low: number, high: number];
  readonly basis?: string;
}

/** No figure of a shop is near it: a larger one is a slip. */
export const LARGEST = 1e6;
/** What a figure of the shop rests on where it does not say. */
export const SHOP_BASIS = 'shop profile';

/** One line on a setting, without what is built in: `width of a column, in mm; usually 3 to 5; typical, from memory`. */
export function settingWords({ words, unit, usual, basis }: ProfileSetting): string {
  const short = (value: number): number => Number(value.toPrecision(4));
  return [
    unit ? `${words}, in ${unit}` : words,
    ...(usual ? [`usually ${short(usual[0])} to ${short(usual[1])}`] : []),
    ...(basis ? [basis] : []),
  ].join('; ');
}

/** Makers of the parts of a description, each noted in `settings`. */
export function settingMakers(z: Zod) {
  const settings = z.registry<ProfileSetting>();
  const bounds = {
    any: z.number().min(-LARGEST).max(LARGEST),
    positive: z.number().positive().max(LARGEST),
    fromZero: z.number().min(0).max(LARGEST),
    part: z.number().positive().max(1),
    ratio: z.number().min(0).lt(0.95),
  };
  type Bound = keyof typeof bounds;

  /**
   * A figure that the library keeps with its range: a number, or `{value, low?, high?, unit?, basis?}`. Who repeats the built-in number, as the
   * profile to start from does, has not said that it is their own: the built-in range stays.
   */
  const figure = (unit: string, bound: Bound, words: string, builtIn?: Sourced) => {
    const number = bounds[bound];
    return z
      .union([
        number,
        z.strictObject({
          value: number,
          low: number.optional(),
          high: number.optional(),
          unit: z.literal(unit).optional(),
          basis: z.string().optional(),
        }),
      ])
      .transform((given, context): Sourced => {
        if (given === builtIn?.value) return builtIn!;
        const parts = typeof given === 'number' ? { value: given } : given;
        const { value, low = value, high = value, basis = SHOP_BASIS } = parts;
        if (!(low <= value && value <= high))
          context.addIssue({
            code: 'custom',
            message: `its range ${low} to ${high} does not hold ${value}`,
            params: { todo: 'give low ≤ value ≤ high' },
          });
        return { value, low, high, unit, basis };
      })
      .register(settings, {
        words,
        unit,
        ...(builtIn && {
          builtIn: builtIn.value,
          usual: [builtIn.low, builtIn.high] as const,
          basis: builtIn.basis,
        }),
      });
  };

  const step = bounds.any.nullable().optional();
  /** A limit: a number moves its mildest step, or the steps by name. */
  const limit = (builtIn: Limit) =>
    z
      .union([bounds.any, z.strictObject({ note: step, warn: step, fail: step })])
      .transform((given, context): Limit => {
        const own = withSteps(builtIn, given, SHOP_BASIS);
        const astray = outOfOrder(own);
        if (astray)
          context.addIssue({
            code: 'custom',
            message: `"${astray}" is milder than the step before it`,
            params: { todo: 'put note, warn and fail in order' },
          });
        return own;
      })
      .register(settings, {
        words: `${builtIn.meaning}; found ${builtIn.side} this`,
        unit: builtIn.unit,
        basis: builtIn.basis,
        builtIn: Object.fromEntries(
          STEPS.flatMap((name) => (builtIn[name] === null ? [] : [[name, builtIn[name]]])),
        ),
      });

  /** Any other value, described. */
  const told = <T extends import('zod').ZodType>(
    schema: T,
    words: string,
    about: Omit<ProfileSetting, 'words'> = {},
  ): T => {
    // One schema may stand at several keys, and each has words of its own.
    const own = schema.clone();
    (settings as import('zod').core.$ZodRegistry<ProfileSetting>).add(own, { words, ...about });
    return own;
  };

  return { settings, bounds, figure, limit, told };
}

export type ProfileSettings = ReturnType<typeof settingMakers>['settings'];
type SettingSchema = import('zod').core.$ZodType;

/** The group of settings in a schema, whatever is wrapped around it; null where it is none. */
export function groupIn(
  schema: SettingSchema,
): import('zod').core.$ZodObjectDef | import('zod').core.$ZodRecordDef | null {
  const { def } = schema._zod as { def: import('zod').core.$ZodTypes['_zod']['def'] };
  switch (def.type) {
    case 'object':
    case 'record':
      return def;
    case 'optional':
      return groupIn(def.innerType);
    case 'pipe':
      return groupIn(def.in);
    case 'union':
      return def.options.map(groupIn).find((group) => group !== null) ?? null;
    default:
      return null;
  }
}

/** The schema of a place below one; null where none is described. */
export function schemaAt(schema: SettingSchema, [key, ...rest]: readonly string[]): SettingSchema | null {
  if (key === undefined) return schema;
  const group = groupIn(schema);
  const inner = group?.type === 'object' ? group.shape[key] : group?.valueType;
  return inner ? schemaAt(inner, rest) : null;
}

/** Keys that a schema allows at a place below it; none where any will do. */
export function keysAt(schema: SettingSchema, at: readonly string[]): readonly string[] {
  const place = schemaAt(schema, at);
  const group = place && groupIn(place);
  return group?.type === 'object' ? Object.keys(group.shape) : [];
}

/** What is noted of a schema, whether it may be left out or not. */
export function settingOf(settings: ProfileSettings, schema: SettingSchema): ProfileSetting | undefined {
  const { def } = schema._zod as { def: import('zod').core.$ZodTypes['_zod']['def'] };
  return settings.get((def.type === 'optional' ? def.innerType : schema) as never);
}
