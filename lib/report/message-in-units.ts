import type { Units } from './quantities.js';

/** A length, or a range of lengths, as messages of findings and sentences of advice give it, in both systems. */
const LENGTH = /(-?[\d.]+(?: to -?[\d.]+)?) mm \((-?[\d.]+(?: to -?[\d.]+)?) in\)/g;

/** A message with the asked-for system first in each of its lengths: `0.17 in (4.2 mm)`. Messages hold mm first. */
export const messageInUnits = (message: string, units: Units): string =>
  units === 'mm' ? message : message.replace(LENGTH, '$2 in ($1 mm)');
