/**
 * Stands in the place of what touches files where there are none, as in a browser; `browser` in package.json puts it there.
 * Bytes are decoded, vetted, drawn and encoded without it.
 */
import { LieflatError } from '../core/errors.js';

function refuseNow(): never {
  throw new LieflatError({
    code: 'unreadable',
    place: 'files',
    what: 'a browser has no files',
    todo: 'hand over bytes instead (decodeDesign, encodeDesign), and keep pictures as SVG',
  });
}

const refuse = async (): Promise<never> => refuseNow();

/** Nothing of the system asked anybody to stop. */
const none = (): readonly never[] => [];

export const DEFAULT_MAX_BYTES = 0;
export {
  none as stopSignals,
  refuse as asNamed,
  refuse as fileState,
  refuse as findUpward,
  refuse as hashOf,
  refuse as isOpenAs,
  refuse as isTableOfSomethingElse,
  refuse as jsonLines,
  refuse as listDesignFiles,
  refuse as makeFolder,
  refuse as openFileSafely,
  refuse as readBytes,
  refuse as readDesignFile,
  refuse as refuseSameTargets,
  refuse as refuseTarget,
  refuse as reportedFiles,
  refuse as svgToPng,
  refuse as writeFileSafely,
  refuse as writeToDescriptor,
  refuseNow as fileError,
  refuseNow as keptAnswers,
  refuseNow as memoryError,
  refuseNow as pathIn,
  refuseNow as sha256,
  refuseNow as shardOf,
  refuseNow as textOfList,
  refuseNow as useDrive,
};
