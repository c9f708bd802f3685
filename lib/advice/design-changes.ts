/** What the design itself, or the fabric, would have to be where no plan is good enough. */
import type { Cause, Driver } from '../mechanics/drivers.js';
import type { DesignChange } from './reason.js';

/** Causes behind less than this part are not worth a change. */
const LEAST_SHARE = 0.08;

/** The plans have tried every backing already. */
const isChange = (cause: Cause): cause is DesignChange => cause !== 'backing';

/** The changes that help most first. */
export const designChanges = (drivers: readonly Driver[]): DesignChange[] =>
  drivers.flatMap(({ cause, share }) => (isChange(cause) && share >= LEAST_SHARE ? [cause] : []));
