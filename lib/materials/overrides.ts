import { LieflatError } from '../core/errors.js';
import type { Sourced } from '../core/sourced.js';
import { CATALOGUE_SHELVES, type Catalogue, type Shelf } from './catalogue.js';
import { PLY_VALUE_KEYS } from './ply-values.js';

/** What a shop says of its own materials: by shelf, by id, the fields that differ. A bare number stands for a measured value. */
export type CatalogueOverrides = {
  readonly [S in Shelf]?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
};

const SHOP = "shop's own value";
/** Goods without stiffness, weight or thickness are no goods. */
const ABOVE_ZERO = new Set<string>(PLY_VALUE_KEYS.filter((key) => key !== 'shrinkage' && key !== 'poisson'));
const PARTS = new Set(['value', 'low', 'high', 'unit', 'basis']);

const isQuantity = (field: unknown): field is Sourced =>
  typeof field === 'object' && field !== null && 'value' in field && 'unit' in field;

function refuse(place: string, what: string, todo: string): never {
  throw new LieflatError({ code: 'bad-profile', place, what, todo });
}

/** A quantity like `model`, from a number or from an object with a value and perhaps a range and a basis. */
function quantity(place: string, key: string, model: Sourced, given: unknown): Sourced {
  const parts = typeof given === 'number' ? { value: given } : given;
  if (typeof parts !== 'object' || parts === null || !('value' in parts))
    refuse(
      place,
      'is neither a number nor {value, low, high, basis}',
      `give a number in ${model.unit || 'plain units'}`,
    );
  const alien = Object.keys(parts).find((key) => !PARTS.has(key));
  if (alien) refuse(`${place}.${alien}`, 'is no part of a value', `use ${[...PARTS].join(', ')}`);
  const { value, low = value, high = value, basis = SHOP, unit = model.unit } = parts as Sourced;
  if (unit !== model.unit) refuse(`${place}.unit`, `is "${String(unit)}"`, `give the value in ${model.unit}`);
  if (typeof basis !== 'string') refuse(`${place}.basis`, 'is no text', 'say where the value comes from');
  if (!(low >= 0 && low <= value && value <= high && high < Infinity))
    refuse(place, `has the range ${low} to ${high} about ${value}`, 'give 0 ≤ low ≤ value ≤ high');
  if (ABOVE_ZERO.has(key) && low === 0) refuse(place, 'reaches down to zero', 'give a low value above zero');
  if (key === 'poisson' && high >= 0.95) refuse(place, `reaches up to ${high}`, 'give a ratio below 0.95');
  return { value, low, high, unit, basis };
}

function material(
  place: string,
  model: Readonly<Record<string, unknown>>,
  base: Readonly<Record<string, unknown>> | undefined,
  id: string,
  fields: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  const out: Record<string, unknown> = { ...base, id };
  for (const [key, given] of Object.entries(fields)) {
    const like = model[key];
    if (key === 'id' || like === undefined)
      refuse(`${place}.${key}`, 'is no field of this material', 'remove or rename it');
    if (isQuantity(like)) out[key] = quantity(`${place}.${key}`, key, like, given);
    else if (typeof given !== typeof like)
      refuse(`${place}.${key}`, `is no ${typeof like}`, `give a ${typeof like}`);
    else out[key] = given;
  }
  const missing = Object.keys(model).filter((key) => out[key] === undefined);
  if (missing.length > 0)
    refuse(place, `is new and lacks ${missing.join(', ')}`, 'give every field of a new material');
  return out;
}

/**
 * The catalogue with a shop's own materials over the built-in ones. A known id needs only the fields that differ; a new id
 * needs them all. Neither argument is changed.
 * @throws LieflatError `bad-profile`, naming the key.
 */
export function withOverrides(catalogue: Catalogue, overrides: CatalogueOverrides): Catalogue {
  const out: Record<string, Record<string, unknown>> = {};
  for (const shelf of CATALOGUE_SHELVES) {
    const known = catalogue[shelf] as Readonly<Record<string, unknown>> as Readonly<
      Record<string, Record<string, unknown>>
    >;
    const [model] = Object.values(known);
    out[shelf] = { ...known };
    for (const [id, fields] of Object.entries(overrides[shelf] ?? {}))
      out[shelf][id] = material(`catalogue.${shelf}.${id}`, model, known[id], id, fields);
  }
  const alien = Object.keys(overrides).find((key) => !(CATALOGUE_SHELVES as readonly string[]).includes(key));
  if (alien)
    refuse(`catalogue.${alien}`, 'is no part of the catalogue', `use ${CATALOGUE_SHELVES.join(', ')}`);
  return out as unknown as Catalogue;
}
