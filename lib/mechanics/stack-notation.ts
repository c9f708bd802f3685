import { LieflatError } from '../core/errors.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { StackedSheet } from './goods.js';

/** What is written for no backing at all. */
export const NO_STACK = 'none';

/**
 * Reads a stack as people write it: `sheet[@angle]` joined by `+`, from the garment outward; `none` for no backing. Angles are degrees
 * counter-clockwise from +X.
 * @throws LieflatError `unknown-id` for a sheet that is not in the catalogue, `bad-argument` for an angle that is no number.
 */
export function parseStack(text: string, catalogue: Catalogue): StackedSheet[] {
  const trimmed = text.trim();
  if (trimmed === NO_STACK) return [];
  return trimmed.split('+').map((part) => {
    const [id, angle, ...rest] = part.trim().split('@');
    const sheet = find(catalogue, 'sheets', id.trim()).id;
    const angleDeg = angle === undefined ? 0 : angle.trim() === '' ? Number.NaN : Number(angle);
    if (!Number.isFinite(angleDeg) || rest.length > 0)
      throw new LieflatError({
        code: 'bad-argument',
        place: `backing "${part.trim()}"`,
        what: 'what follows the @ is no angle',
        todo: `write ${sheet}@45, or ${sheet} alone for an angle of 0`,
      });
    return { sheet, angleDeg };
  });
}

/** The stack as {@link parseStack} reads it. */
export const stackText = (stack: readonly StackedSheet[]): string =>
  stack.length === 0
    ? NO_STACK
    : stack.map(({ sheet, angleDeg }) => (angleDeg === 0 ? sheet : `${sheet}@${angleDeg}`)).join('+');
