/** Which profile is in force and what it changes: what `lieflat profile` prints. */

import { counted } from '../report/quantities.js';
import { printable } from '../report/render/printable.js';
import { textTable } from '../report/render/text-table.js';
import { wrap } from '../report/render/wrap.js';
import type { TextOptions } from '../report/text-options.js';
import { type Difference, differencesOf, type ProfileFigure } from './differences.js';
import type { ShopFigures } from './shop.js';

export interface ProfileReport {
  readonly schema: 'lieflat/profile@1';
  /** The file in force; null where the built-in figures are. */
  readonly path: string | null;
  readonly differences: readonly Difference[];
}

export async function profileReport(path: string | null, shop: ShopFigures): Promise<ProfileReport> {
  return { schema: 'lieflat/profile@1', path, differences: await differencesOf(shop) };
}

const INDENT = '  ';

/** @param name the file that is looked for where none is in force */
export function profileToText(
  { path, differences }: ProfileReport,
  { width }: TextOptions,
  name: string,
): string {
  const lines =
    path === null
      ? wrap(
          `No profile is in force: every figure is built in. lieflat profile --init writes ${name} to start from.`,
          width,
        )
      : wrap(
          `${printable(path)} is in force: ${differences.length === 0 ? 'it changes nothing that is built in' : `${counted(differences.length, 'figure')} other than built in`}.`,
          width,
        );
  if (differences.length > 0)
    lines.push(
      ...textTable(
        [
          { head: 'key', align: 'left', flexible: true },
          { head: 'here', align: 'right' },
          { head: 'built in', align: 'right' },
          { head: 'unit', align: 'left' },
        ],
        differences.map(({ key, value, builtIn, unit }) => [
          printable(key),
          words(value),
          words(builtIn),
          printable(unit),
        ]),
        width,
        INDENT,
      ),
    );
  return `${lines.join('\n')}\n`;
}

const words = (figure: ProfileFigure): string => {
  if (figure === null) return '-';
  return typeof figure === 'number' ? String(Number(figure.toPrecision(6))) : printable(String(figure));
};
