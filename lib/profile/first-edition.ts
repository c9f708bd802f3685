/**
 * Calibrations of the pucker model's first edition. It had parameters that are no more, and what was fitted to it says nothing of this edition, not
 * even where the name is the same: such a calibration is passed over as a whole.
 */
const GONE: readonly string[] = ['fullTacking', 'hooped', 'threshold'];
/** How a fit of that edition says what it rests on. */
const BASIS = /^fitted to \d+ graded sew-outs of the shop's own; built-in/;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** @param profile as it is parsed, unchecked */
export function hasFirstEdition(profile: unknown): boolean {
  if (!isRecord(profile) || !isRecord(profile.calibration)) return false;
  return Object.entries(profile.calibration).some(
    ([name, figure]) =>
      GONE.includes(name) ||
      (isRecord(figure) && typeof figure.basis === 'string' && BASIS.test(figure.basis)),
  );
}

/** The same profile without the parameters that are no more, so that a slip beside them is still told. */
export function withoutGone(profile: unknown): unknown {
  if (!isRecord(profile) || !isRecord(profile.calibration)) return profile;
  const kept = Object.entries(profile.calibration).filter(([name]) => !GONE.includes(name));
  return { ...profile, calibration: Object.fromEntries(kept) };
}
