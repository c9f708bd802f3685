import { LieflatError } from '../core/errors.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { StackedSheet } from './layup.js';

/** What is written for no backing at all. */
export const NO_STACK = 'none';

/** More sheets than anyone hoops under one design: with three a hoop hardly closes (from memory). */
export const MOST_SHEETS = 6;

/**
 * Reads a stack as people write it: `sheet[@angle]` joined by `+`, from the garment outward; `none` for no backing. Angles are degrees
 * counter-clockwise from +X, 0 to 180.
 * @throws LieflatError `unknown-id` for a sheet that is not in the catalogue, `bad-argument` for a topping, for a + without a sheet on either side of
 * it, for more than {@link MOST_SHEETS} sheets and for an angle that is no number or not from 0 to 180.
 */
export function parseStack(text: string, catalogue: Catalogue): StackedSheet[] {
  const trimmed = text.trim();
  if (trimmed === NO_STACK) return [];
  const parts = trimmed.split('+');
  if (parts.length > MOST_SHEETS)
    throw new LieflatError({
      code: 'bad-argument',
      place: 'backing',
      what: `${parts.length} sheets are more than the ${MOST_SHEETS} that a stack may have`,
      todo: 'name the sheets that are hooped under the design, each once for every layer',
    });
  return parts.map((part) => {
    if (part.trim() === '')
      throw new LieflatError({
        code: 'bad-argument',
        place: `backing "${trimmed}"`,
        what: trimmed === '' ? 'no sheet is named' : 'a sheet is missing before or after a +',
        todo: 'write the sheets with one + between them, as cutaway-2.5oz+cutaway-2.5oz, or none for no backing',
      });
    const [id, angle, ...rest] = part.trim().split('@');
    const sheet = sheetOf(id.trim(), catalogue);
    const refuse = (what: string, todo: string): LieflatError =>
      new LieflatError({ code: 'bad-argument', place: `backing "${part.trim()}"`, what, todo });
    if (angle === undefined) return { sheet, angleDeg: 0 };
    const angleDeg = angle.trim() === '' ? Number.NaN : Number(angle);
    if (!Number.isFinite(angleDeg) || rest.length > 0)
      throw refuse(
        'what follows the @ is no angle',
        `write ${sheet}@45, or ${sheet} alone for an angle of 0`,
      );
    if (!(angleDeg >= 0 && angleDeg <= 180)) {
      const same = Number((((angleDeg % 180) + 180) % 180).toFixed(6));
      throw refuse(
        'the angle is not from 0 to 180',
        `a sheet is the same again after half a turn: write ${sheet}@${same}`,
      );
    }
    return { sheet, angleDeg };
  });
}

function sheetOf(id: string, catalogue: Catalogue): string {
  if (!Object.hasOwn(catalogue.sheets, id) && Object.hasOwn(catalogue.toppings, id))
    throw new LieflatError({
      code: 'bad-argument',
      place: `backing "${id}"`,
      what: 'that is a topping: it lies on the garment, not behind it',
      todo: 'leave it out of --stack, or name a sheet of lieflat catalog sheets',
    });
  return find(catalogue, 'sheets', id).id;
}

/** The stack as {@link parseStack} reads it. */
export const stackText = (stack: readonly StackedSheet[]): string =>
  stack.length === 0
    ? NO_STACK
    : stack.map(({ sheet, angleDeg }) => (angleDeg === 0 ? sheet : `${sheet}@${angleDeg}`)).join('+');
