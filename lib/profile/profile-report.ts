import type { ProfileReport } from '../report/profile/report.js';
import { differencesOf } from './differences.js';
import type { ShopFigures } from './shop.js';

/** Which profile is in use and what it changes. */
export async function profileReport(path: string | null, shop: ShopFigures): Promise<ProfileReport> {
  return { schema: 'lieflat/profile@1', path, differences: await differencesOf(shop) };
}
