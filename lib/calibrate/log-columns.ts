/** Columns of a log of sew-outs in the order in which the card prints them; a log may have them in any, and others beside them. */
export const LOG_COLUMNS = ['file', 'fabric', 'stack', 'underlay', 'washes', 'grade', 'remarks'] as const;
/** Further columns for what a ruler finds as sewn: the number of an object, and its width across the stitches, mm. */
export const RULER_COLUMNS = ['object', 'width_mm'] as const;
