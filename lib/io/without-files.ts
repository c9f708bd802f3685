/**
 * Stands in the place of what touches files where there are none, as in a browser; `browser` in package.json puts it there.
 * Bytes are decoded, vetted, drawn and encoded without it.
 */
import { LieflatError } from '../core/errors.js';

function refuseNow(): never {
  throw new LieflatError({
    code: 'unreadable',
    place: 'files',
    what: 'there are none in a browser',
    todo: 'hand over bytes instead (decodeDesign, encodeDesign), and keep pictures as SVG',
  });
}

const refuse = async (): Promise<never> => refuseNow();

export const DEFAULT_MAX_BYTES = 0;
export {
  refuse as findUpward,
  refuse as hashOf,
  refuse as listDesignFiles,
  refuse as openFileSafely,
  refuse as readBytes,
  refuse as readDesignFile,
  refuse as refuseTarget,
  refuse as reportedFiles,
  refuse as svgToPng,
  refuse as writeFileSafely,
  refuseNow as sha256,
};
