/**
 * From millimetres to a score and a grade. No published map from wrinkle height to a smoothness grade was found: this one is our own
 * assumption. The standards give the direction (5 smooth, 1 severe) and the allowed steps.
 */

/** Patch of fabric that a viewer takes in at once: a large letter and what is about it, mm². Our own assumption. */
export const VIEWED_MM2 = 300;

/** 0 (flat) to 100: the score that is left to 100 halves with every `halfMm` of wrinkle height. */
export const scoreOf = (wrinkleMm: number, halfMm: number): number => 100 * (1 - 2 ** (-wrinkleMm / halfMm));

/** Grade 5 to 1 before it is rounded. */
export const exactGradeOf = (score: number): number => 5 - score / 25;

/**
 * Grade 5 to 1 in half steps. AATCC TM124 and ISO 7768 have replicas 1, 2, 3, 3.5, 4 and 5 and allow a grade midway between whole
 * numbers that have no half standard between them, so that every half step is a grade there.
 */
export const gradeOf = (score: number): number => Math.round(2 * exactGradeOf(score)) / 2;
