import type { DesignFile, FileFacts } from '../lib/index.js';

/** What a report says of the file that was read; its hash is worked out where that is asked for. */
export function factsOf(file: DesignFile): FileFacts {
  return {
    path: file.path,
    format: file.format,
    bytes: file.bytes.length,
    get sha256() {
      return file.sha256;
    },
  };
}
