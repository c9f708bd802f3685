/** What the colors of a picture can stand for. */
export const DRAW_BY = ['object', 'width', 'density', 'risk'] as const;
export type DrawBy = (typeof DRAW_BY)[number];
