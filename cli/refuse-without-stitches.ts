import { LieflatError, type Vetting } from '../lib/index.js';

/**
 * For commands that plan the sewing of a design.
 * @throws LieflatError `undecodable` where there is none
 */
export function refuseWithoutStitches({ stitches }: Pick<Vetting, 'stitches'>, path: string): void {
  if (stitches.count > 0) return;
  throw new LieflatError({
    code: 'undecodable',
    place: path,
    what: 'no stitch is in this file',
    todo: 'ask for the file again; lieflat vet says what it does hold',
  });
}
