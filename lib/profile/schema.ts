/** What a profile may say: the one description from which its keys, its checks, the profile to start from and the JSON Schema are made. */
import { type Accepted, USUALLY_ACCEPTED } from '../advice/accepted.js';
import { type Pricing, type ShopWork, USUAL_PRICING, USUAL_RATES, USUAL_WORK } from '../advice/price.js';
import { LieflatError } from '../core/errors.js';
import type { Sourced } from '../core/sourced.js';
import { CATALOGUE, find, type Shelf } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import { COMMERCIAL_HEAD } from '../materials/machine.js';
import type { Needle } from '../materials/needles.js';
import type { PlyValues } from '../materials/ply-values.js';
import {
  CATALOGUE_CURRENCY,
  CATALOGUE_PRICES,
  type Prices,
  USUAL_PRICES,
  withCataloguePrices,
} from '../materials/prices.js';
import type { Sheet } from '../materials/sheets.js';
import { USUAL_STOCK } from '../materials/stock.js';
import { USUAL_THREAD_USE } from '../materials/thread-use.js';
import type { Thread } from '../materials/threads.js';
import type { Topping } from '../materials/toppings.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import { type MechanicsParameters, PARAMETERS } from '../mechanics/parameters.js';
import { LIMITS, type LimitId } from '../vetting/limits.js';
import { ownNames } from './own-names.js';
import { LARGEST, settingMakers, settingWords, type Zod } from './setting.js';

const OURS = 'our own assumption';
/** More of a price than this is a slip. */
const MOST_PERCENT = 95;

type Schema = import('zod').ZodType;
/** A description of every field of a material but its id. */
type Fields<M> = Record<keyof Omit<M, 'id'>, Schema>;

/** @param z zod, which is loaded only for a shop that has a profile */
function describe(z: Zod) {
  const { settings, bounds, figure, limit, told } = settingMakers(z);
  const grade = bounds.any.min(1).max(5).multipleOf(0.5);
  const id = z
    .string()
    .regex(/^[a-z0-9]+([.-][a-z0-9]+)*$/, 'an id is small letters, digits, hyphens and points');
  const placeId = z
    .string()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an id is small letters, digits and single hyphens');
  const name = told(z.string().min(1), 'what people call it');

  const head = (key: Exclude<keyof MachineProfile, 'id' | 'name'>, words: string) =>
    figure(COMMERCIAL_HEAD[key].unit, 'positive', words, COMMERCIAL_HEAD[key]).optional();
  const parameter = (
    key: keyof MechanicsParameters,
    bound: 'positive' | 'fromZero' | 'part',
    words: string,
  ) => figure(PARAMETERS[key].unit, bound, words, PARAMETERS[key]).optional();
  const amount = z.number().min(0).max(LARGEST);
  const plain = (schema: Schema, words: string, { unit, value, low, high, basis }: Sourced) =>
    told(schema as typeof amount, words, { unit, builtIn: value, usual: [low, high], basis }).optional();
  const price = (words: string, usual: Sourced) => plain(amount, words, usual);
  const percent = (words: string, usual: Sourced) => plain(amount.max(MOST_PERCENT), words, usual);

  const ply = {
    membraneAlong: figure('N/mm', 'positive', 'membrane stiffness along the grain'),
    membraneAcross: figure('N/mm', 'positive', 'membrane stiffness across the grain'),
    membraneShear: figure('N/mm', 'positive', 'membrane stiffness in shear'),
    poisson: figure('', 'ratio', 'strain across over strain along, for a pull along'),
    bendingAlong: figure('µN·m', 'positive', 'bending stiffness along the grain'),
    bendingAcross: figure('µN·m', 'positive', 'bending stiffness across the grain'),
    mass: figure('g/m²', 'positive', 'weight'),
    thickness: figure('mm', 'positive', 'thickness'),
    shrinkage: figure('%', 'fromZero', 'shorter after many launderings'),
  } satisfies Record<keyof PlyValues, Schema>;
  const flag = (words: string) => told(z.boolean(), words);
  const fabric = {
    name,
    structure: told(z.enum(['knit', 'woven']), 'how the fabric is made'),
    stretchy: flag('gives under the hand: calls for a backing that stays'),
    elastic: flag('knit of synthetic yarn that gives far and springs back'),
    rigid: flag('no give at all: a backing that tears away is enough'),
    pile: flag('has a pile'),
    open: flag('open or loose enough for stitches to sink in'),
    sheer: flag('see-through: the backing shows'),
    cap: flag('a cap'),
    washable: flag('may be washed'),
    holesStay: flag('needle holes stay in it for good'),
    ...ply,
    stretch: figure('%', 'fromZero', 'how much longer it gets before it resists, the stretchier way'),
  } satisfies Fields<Fabric>;
  const aPiece = (words: string) => figure('USD/sheet', 'fromZero', words);
  const sheet = {
    name,
    kind: told(z.enum(['cut-away', 'tear-away', 'woven', 'soluble']), 'what becomes of it after sewing'),
    perforates: flag('lines of needle holes weaken it'),
    washable: flag('may be washed'),
    ...ply,
    price: aPiece('price of a piece for a left-chest hoop'),
  } satisfies Fields<Sheet>;
  const topping = {
    name,
    removedBy: told(z.enum(['water', 'heat']), 'what takes it off'),
    price: aPiece('price of a piece for a left-chest hoop'),
  } satisfies Fields<Topping>;
  const thread = {
    name,
    weight: told(z.literal([40, 60]), 'weight on the label'),
    fibre: told(z.enum(['polyester', 'rayon']), 'what it is made of'),
    count: figure('tex', 'positive', 'linear density'),
    density: figure('g/cm³', 'positive', 'density of the fiber'),
    cover: figure('mm', 'positive', 'width of fabric that one thread hides, laid flat'),
    axialStiffness: figure('N', 'positive', 'pull along the thread for a strain of one'),
    shrinkage: figure('%', 'fromZero', 'shorter after many launderings'),
  } satisfies Fields<Thread>;
  const needle = {
    name,
    nm: told(bounds.positive, 'metric size, 100 × shaft in mm'),
    point: told(z.enum(['sharp', 'ball']), 'its point'),
    use: told(z.string(), 'fabrics that it suits'),
    useBasis: told(z.string(), 'where that comes from'),
    shaft: figure('mm', 'positive', 'thickness of the shaft'),
  } satisfies Fields<Needle>;
  /** Materials of a shelf by id: of a built-in one what differs, of a new one every field. */
  const shelf = <F extends Record<string, Schema>>(words: string, of: Shelf, fields: F) =>
    told(
      z.record(id, z.strictObject(fields).partial()).superRefine((given, context) => {
        for (const [own, material] of Object.entries(given)) {
          const missing = Object.hasOwn(CATALOGUE[of], own)
            ? []
            : Object.keys(fields).filter((key) => (material as Record<string, unknown>)[key] === undefined);
          if (missing.length > 0)
            context.addIssue({
              code: 'custom',
              path: [own],
              message: `it is new and lacks ${missing.join(', ')}`,
              params: { todo: 'give every field of a new material' },
            });
        }
      }),
      words,
    ).optional();

  const group = <G extends Record<string, Schema>>(words: string, of: G) =>
    told(z.strictObject(of), words).optional();
  const listed = withCataloguePrices(CATALOGUE_PRICES, CATALOGUE);
  const priced = (of: 'sheets' | 'toppings') =>
    told(z.record(id, bounds.fromZero), `by id, for a piece that fits a left-chest hoop`, {
      builtIn: listed[of],
      basis: `typical, from memory; lieflat catalog ${of}`,
    }).optional();

  const profile = z.strictObject({
    $schema: told(z.string(), 'where editors find what a profile may say').optional(),
    limits: group(
      'From where on something is said. A number alone moves the mildest step; null says nothing at that step',
      Object.fromEntries(
        Object.entries(LIMITS).map(([key, builtIn]) => [key, limit(builtIn).optional()]),
      ) as Record<LimitId, ReturnType<ReturnType<typeof limit>['optional']>>,
    ),
    machine: group('The head that sews', {
      speedSpm: head('speedSpm', 'full speed'),
      fullSpeedMm: head('fullSpeedMm', 'longest stitch that it sews at full speed'),
      slowestSpm: head('slowestSpm', 'speed at the longest stitch'),
      trimSeconds: head('trimSeconds', 'time for a trim'),
      colourSeconds: head('colourSeconds', 'time for a color change with its trim'),
      stopSeconds: head('stopSeconds', 'time of a stop until the operator goes on'),
    } satisfies Partial<Record<keyof MachineProfile, Schema>>),
    thread: group('What thread a design takes', {
      thicknessMm: figure(
        'mm',
        'positive',
        'thickness of fabric and backing together',
        USUAL_THREAD_USE.thicknessMm,
      ).optional(),
      bobbinPerTop: figure(
        '',
        'positive',
        'bobbin thread for each length of top thread',
        USUAL_THREAD_USE.bobbinPerTop,
      ).optional(),
    } satisfies Record<keyof ThreadUse, Schema>),
    places: told(
      z.record(
        placeId,
        z.strictObject({
          name: name.optional(),
          widthMm: figure('mm', 'positive', 'widest design that it takes'),
          heightMm: figure('mm', 'positive', 'highest design that it takes'),
          frame: flag('the size is set by a frame that the needle must not hit').optional(),
        }),
      ),
      'Places on garments by id, and how large designs there may be',
    ).optional(),
    catalogue: group(
      "The shop's own materials by id: of a built-in one what differs, of a new one every field",
      {
        fabrics: shelf('what is sewn on', 'fabrics', fabric),
        sheets: shelf('backing', 'sheets', sheet),
        toppings: shelf('film over the fabric', 'toppings', topping),
        threads: shelf('top thread', 'threads', thread),
        needles: shelf('needles', 'needles', needle),
      } satisfies Record<Shelf, Schema>,
    ),
    ...ownNames(z, told),
    calibration: group('Parameters of the pucker model, as lieflat calibrate writes them', {
      tension: parameter('tension', 'positive', 'tension with which the machine lays a stitch'),
      bedIn: parameter(
        'bedIn',
        'positive',
        'length over which a stitch loses half its tension at its needle points',
      ),
      topShare: parameter(
        'topShare',
        'part',
        'part of the tension that is on the fabric; the rest is on the backing',
      ),
      pointSpring: parameter(
        'pointSpring',
        'positive',
        'stiffness with which a needle point joins fabric and backing',
      ),
      fabricGrip: parameter(
        'fabricGrip',
        'positive',
        'the same of fabric that gives, as a multiple of its membrane stiffness',
      ),
      ownPoints: parameter('ownPoints', 'part', 'part of that while stitches of the same block pull'),
      hoopForce: parameter(
        'hoopForce',
        'positive',
        'how hard careful hooping stretches the fabric beyond its backing',
      ),
      longestSpan: parameter('longestSpan', 'positive', 'longest span over which fabric stands free'),
      sewnThread: parameter('sewnThread', 'positive', 'how stiff sewn thread is beside straight thread'),
      cutFibers: parameter('cutFibers', 'fromZero', 'how needle points cut the fibers of a bonded sheet'),
      perforation: parameter(
        'perforation',
        'positive',
        'needle points per mm of a line that halve the stiffness of a tear-away sheet',
      ),
      firstWash: parameter('firstWash', 'part', 'part of the final shrinkage that comes with one laundering'),
      scoreHalf: parameter('scoreHalf', 'positive', 'wrinkle height that scores 50'),
      modelError: parameter('modelError', 'positive', "the model's own error, of the logarithm of a strain"),
      setupError: parameter('setupError', 'positive', 'the same of a setup by itself'),
    } satisfies Record<keyof MechanicsParameters, Schema>),
    prices: group(`What things cost. Another currency than ${CATALOGUE_CURRENCY} needs every price in it`, {
      currency: told(
        z.string().regex(/^[A-Z]{3}$/, 'a currency is three capitals, as USD'),
        'three letters of ISO 4217',
        {
          builtIn: CATALOGUE_CURRENCY,
        },
      ).optional(),
      sheets: priced('sheets'),
      toppings: priced('toppings'),
      threadPer1000m: price('top thread', USUAL_PRICES.threadPer1000m),
      bobbinPer1000m: price('bobbin thread', USUAL_PRICES.bobbinPer1000m),
      machinePerHour: price('one head at work', USUAL_PRICES.machinePerHour),
    } satisfies Record<keyof Prices, Schema>),
    stock: told(
      z.array(id).min(1),
      'sheets that the shop keeps, by id: plans are made of these. Default: the usual ones, and those of its own catalogue and prices',
      { builtIn: USUAL_STOCK.ids, basis: USUAL_STOCK.basis },
    ).optional(),
    work: group('The people and the heads; for the price of a run', {
      heads: told(z.number().int().min(1).max(1000), 'heads that sew the same design side by side', {
        builtIn: USUAL_WORK.heads,
        basis: OURS,
      }).optional(),
      laborPerHour: price('an hour of labor', USUAL_RATES.laborPerHour),
      hoopingMinutes: price('hooping a piece', USUAL_RATES.hoopingMinutes),
      trimmingMinutes: price('trimming a piece: thread ends, backing, topping', USUAL_RATES.trimmingMinutes),
    } satisfies Record<keyof ShopWork, Schema>),
    pricing: group('How the price of a run is made of its cost: lieflat advise --quantity', {
      setupFee: told(amount, 'charged once a job, as it is', {
        unit: `${CATALOGUE_CURRENCY}/job`,
        builtIn: USUAL_PRICING.setupFee,
        basis: OURS,
      }).optional(),
      digitizing: told(amount, 'charged once for a design, as it is; 0 where it is bought outside', {
        unit: `${CATALOGUE_CURRENCY}/design`,
        builtIn: USUAL_PRICING.digitizing,
        basis: OURS,
      }).optional(),
      marginPercent: percent(
        'part of the price of a piece that is left over its cost',
        USUAL_RATES.marginPercent,
      ),
      spoilagePercent: percent('pieces that spoil, of those ordered', USUAL_RATES.spoilagePercent),
      quantityBreaks: told(
        z.array(
          z.strictObject({
            from: z.number().int().min(1).max(LARGEST),
            offPercent: z.number().min(0).max(MOST_PERCENT),
          }),
        ),
        'what is taken off the price of a piece from so many pieces of a job on, as [{"from": 24, "offPercent": 5}]',
        { builtIn: USUAL_PRICING.quantityBreaks, basis: OURS },
      ).optional(),
      leastEach: told(amount, 'the least that a piece is charged, after any quantity break', {
        unit: `${CATALOGUE_CURRENCY}/piece`,
        builtIn: USUAL_PRICING.leastEach,
        basis: OURS,
      }).optional(),
    } satisfies Record<keyof Pricing, Schema>),
    accept: group('The lowest grades (5 smooth, 1 severe) that may leave the shop', {
      grade: told(grade, 'as sewn', { builtIn: USUALLY_ACCEPTED.grade, basis: OURS }).optional(),
      washedGrade: told(grade, 'after launderings', {
        builtIn: USUALLY_ACCEPTED.washedGrade,
        basis: OURS,
      }).optional(),
      washes: told(z.number().int().min(0).max(200), 'how many launderings', {
        builtIn: USUALLY_ACCEPTED.washes,
        basis: OURS,
      }).optional(),
    } satisfies Record<keyof Accepted, Schema>),
  });
  const checked = profile.superRefine(({ prices, catalogue, stock = [] }, context) => {
    const { currency = CATALOGUE_CURRENCY } = prices ?? {};
    const missing = (['sheets', 'threadPer1000m', 'bobbinPer1000m', 'machinePerHour'] as const).find(
      (key) => prices?.[key] === undefined,
    );
    // Built-in prices are in one currency.
    if (currency !== CATALOGUE_CURRENCY && missing)
      context.addIssue({
        code: 'custom',
        path: ['prices', 'currency'],
        message: `prices.${missing} is missing, and the built-in price is in ${CATALOGUE_CURRENCY}, not in ${currency}`,
        params: { todo: `give it in ${currency}` },
      });
    // A sheet that there is none of would be left out of every plan, unseen.
    const mustBeThere = (of: 'sheets' | 'toppings', named: string, path: (string | number)[]): void => {
      const unknown = Object.hasOwn(catalogue?.[of] ?? {}, named) ? null : notIn(of, named);
      if (unknown)
        context.addIssue({ code: 'custom', path, message: unknown.what, params: { todo: unknown.todo } });
    };
    for (const of of ['sheets', 'toppings'] as const)
      for (const priced of Object.keys(prices?.[of] ?? {})) mustBeThere(of, priced, ['prices', of, priced]);
    for (const [k, sheet] of stock.entries()) mustBeThere('sheets', sheet, ['stock', k]);
  });
  return { profile, checked, settings };
}

function notIn(shelf: 'sheets' | 'toppings', id: string): LieflatError | null {
  try {
    find(CATALOGUE, shelf, id);
    return null;
  } catch (error) {
    if (error instanceof LieflatError) return error;
    throw error;
  }
}

/** What may stand in a profile. */
export type Profile = import('zod').input<ReturnType<typeof describe>['checked']>;
/** The same with every figure as the library keeps it. */
export type CheckedProfile = import('zod').output<ReturnType<typeof describe>['checked']>;
export type ProfileKey = Exclude<keyof Profile, '$schema'>;

let made: Promise<ReturnType<typeof describe>> | undefined;

/** Made once; nothing may change it. */
export const profileDescription = (): Promise<ReturnType<typeof describe>> =>
  (made ??= import('zod').then(describe));

/** What a profile may say, as JSON Schema (draft 2020-12). */
export async function profileJsonSchema(): Promise<object> {
  const [z, { checked, settings }] = await Promise.all([import('zod'), profileDescription()]);
  const schema = z.toJSONSchema(checked, {
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      const setting = settings.get(zodSchema as never);
      if (!setting) return;
      jsonSchema.description = `${settingWords(setting)}.`;
      if (setting.builtIn !== undefined) jsonSchema.default = setting.builtIn as never;
    },
  });
  return { title: 'lieflat profile', ...schema };
}
