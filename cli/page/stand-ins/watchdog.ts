import type { Watchdog } from '../../watchdog.js';

/** In the place of Node's own, in the page: nothing ends work in a worker but its end, for which the page has a button. */
export const ownWatchdog: Watchdog = { now: () => performance.now(), within: (_ms, work) => work() };
