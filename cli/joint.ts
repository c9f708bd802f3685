/** Formats in which the reports of several files follow one another; a page is whole only in the end. */
export type ListFormat = 'text' | 'json' | 'jsonl' | 'csv' | 'html';

/** How reports that are set already are joined. */
export interface Joint {
  before: string;
  one: (pieces: Iterable<string>) => Iterable<string>;
  after: string;
}

/**
 * Joins reports one by one as they come: JSON is one object for one file and an array for several (or none), a table
 * has its heading once, texts are set apart by an empty line.
 */
export function jointOf(format: ListFormat, files: number, csvHeader: () => string): Joint {
  let first = true;
  /** What stands between two reports, and before the first. */
  const after = (ahead: string, between: string) => {
    const separator = first ? ahead : between;
    first = false;
    return separator;
  };
  switch (format) {
    case 'json':
      if (files === 1) return plain();
      return { before: '[', one: (pieces) => behind(after('\n', ',\n'), trimmed(pieces)), after: '\n]\n' };
    case 'text':
      return { before: '', one: (pieces) => behind(after('', '\n'), pieces), after: '' };
    case 'csv':
      return plain(csvHeader());
    case 'jsonl':
    case 'html':
      return plain();
  }
}

const plain = (before = ''): Joint => ({ before, one: (pieces) => pieces, after: '' });

function* behind(separator: string, pieces: Iterable<string>): Generator<string> {
  let ahead = separator;
  for (const piece of pieces) {
    yield ahead + piece;
    ahead = '';
  }
}

/** Without the line feed at the end. */
function* trimmed(pieces: Iterable<string>): Generator<string> {
  let held = '';
  for (const piece of pieces) {
    if (held !== '') yield held;
    held = piece;
  }
  yield held.trimEnd();
}
