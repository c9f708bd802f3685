/** Garments that a shop has names of its own for: each a fabric of its catalogue. */
import { LieflatError } from '../core/errors.js';
import type { Catalogue } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import { fabricNamed } from '../materials/fabric-named.js';
import { type GarmentKind, garmentId } from '../materials/garments.js';
import { answersText, fabricLike, type LikeFabric } from '../materials/like-fabric.js';
import type { SettingsSource } from './refusal.js';

/**
 * The catalogue with a fabric for each garment, by the garment's name as an id.
 * @throws LieflatError `bad-profile` where what one is like is not known, or two names come to the same
 */
export function withOwnGarments(
  catalogue: Catalogue,
  garments: Readonly<Record<string, LikeFabric>>,
  source: SettingsSource,
): Catalogue {
  const fabrics: Record<string, Fabric> = {};
  const kinds: GarmentKind[] = [];
  for (const [name, answers] of Object.entries(garments)) {
    const id = garmentId(name);
    if (Object.hasOwn(fabrics, id))
      throw new LieflatError({
        code: 'bad-profile',
        place: source.placeOf(['garments', name]),
        what: `garments.${name} is there already under another spelling`,
        todo: 'keep one of them',
      });
    const base = likeNamed(catalogue, name, answers, source);
    fabrics[id] = fabricLike(base, { id, name }, answers);
    kinds.push({ names: [name], fabric: id, madeOf: madeOf(base, answers) });
  }
  return { ...catalogue, fabrics: { ...catalogue.fabrics, ...fabrics }, garments: kinds };
}

function likeNamed(catalogue: Catalogue, name: string, { like }: LikeFabric, source: SettingsSource): Fabric {
  try {
    return fabricNamed(catalogue, like).fabric;
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    throw new LieflatError({
      code: 'bad-profile',
      place: source.placeOf(['garments', name, 'like']),
      what: `garments.${name}.like is wrong: ${error.what}`,
      todo: error.todo,
    });
  }
}

function madeOf({ name }: Fabric, answers: LikeFabric): string {
  const but = answersText(answers);
  return `like ${name}${but === '' ? '' : `, but ${but}`}, as your profile says`;
}
