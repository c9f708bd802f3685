import { setTimeout as wait } from 'node:timers/promises';

/** Notes a line where something is not as it should be. */
export type Hold = (right: boolean, line: string) => void;

const PATIENCE_MS = 600_000;

/** Waits until something has come about. */
export async function until(what: string, there: () => Promise<boolean>): Promise<void> {
  const last = performance.now() + PATIENCE_MS;
  while (!(await there())) {
    if (performance.now() > last)
      throw new Error(`in ${PATIENCE_MS / 60_000} minutes it did not come to this: ${what}`);
    await wait(10);
  }
}
