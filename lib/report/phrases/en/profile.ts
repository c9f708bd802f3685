/** What `lieflat profile` says of the shop's own figures. */
import type { Voice } from '../voice.js';

export const profile = {
  title: 'Shop profile',
  none: ({ name }: { name: string }, _: Voice): string =>
    `No profile is in use: every figure is built in. lieflat profile --init writes ${name} to start from.`,
  inUse: ({ path, figures }: { path: string; figures: number }, say: Voice): string =>
    figures === 0
      ? `${path} is in use: it changes nothing that is built in.`
      : `${path} is in use: it changes ${say.counted(figures, 'built-in figure')}.`,
  /** Of a calibration that an earlier edition of the model wrote. */
  fitAgain: ({ place }: { place: string }, _: Voice): string =>
    `${place}: calibration is not used; fit again: the model changed (lieflat calibrate)`,
  /** Where a figure is switched off, or there is none. */
  nothing: '-',
  column: { key: 'key', here: 'here', builtIn: 'built in', unit: 'unit' },
};
