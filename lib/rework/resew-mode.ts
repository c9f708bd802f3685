/**
 * Ways to make a design larger: as a machine does, place by place; stitches laid anew in the larger shapes at the spacing they had; or every
 * column widened where it stands.
 */
export const RESEW_MODES = ['machine', 'regenerate', 'widen'] as const;
export type ResewMode = (typeof RESEW_MODES)[number];
