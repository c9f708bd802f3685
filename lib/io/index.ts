/** `lieflat/io`: files, read with bounds and written whole or not at all. */
export { type Drive, type FileState, type FolderEntry, type Opening, useDrive } from './drive.js';
export { fileError, memoryError } from './file-errors.js';
export { findUpward } from './find-upward.js';
export { jsonLines, type LinesRead } from './json-lines.js';
export { type AnswersPlace, keptAnswers } from './kept-answers.js';
export { type DesignFileList, isTableOfSomethingElse, listDesignFiles } from './list-files.js';
export { type MemoryDrive, memoryDrive } from './memory-drive.js';
export { textOfList } from './name-bytes.js';
export { asNamed, fileState, isOpenAs, stopSignals, writeToDescriptor } from './outside.js';
export {
  DEFAULT_MAX_BYTES,
  type DesignFile,
  hashOf,
  type ReadOptions,
  readBytes,
  readDesignFile,
  sha256,
} from './read-file.js';
export { type ReportedFiles, reportedFiles } from './reported-files.js';
export { shardOf } from './shard-of.js';
export { pathIn } from './system.js';
export {
  makeFolder,
  openFileSafely,
  refuseSameTargets,
  refuseTarget,
  removeFile,
  type SafeFile,
  type WriteOptions,
  writeFileSafely,
} from './write-file.js';
