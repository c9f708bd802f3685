import type { DesignFile, FileFacts } from '../lib/index.js';

/** What a report says of the file that was read. */
export function factsOf({ path, format, bytes, sha256 }: DesignFile): FileFacts {
  return { path, format, bytes: bytes.length, sha256 };
}
