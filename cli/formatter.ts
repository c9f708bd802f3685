/** How each format sets one report, and how several follow one another. */
export interface Formats<T> {
  text: (report: T) => Promise<string>;
  json: (report: T) => string;
  jsonl?: (report: T) => string;
  csv?: { header: () => string; records: (report: T) => string };
}

export interface Formatter<T> {
  before: string;
  one: (report: T) => Promise<string>;
  after: string;
}

/**
 * Sets reports one by one as they come: JSON is one object for one file and an array for several (or none), a table
 * has its heading once, texts are set apart by an empty line.
 */
export function formatter<T>(format: keyof Formats<T>, files: number, formats: Formats<T>): Formatter<T> {
  switch (format) {
    case 'json': {
      if (files === 1) return { before: '', one: async (report) => formats.json(report), after: '' };
      let separator = '\n';
      return {
        before: '[',
        one: async (report) => {
          const piece = separator + formats.json(report).trimEnd();
          separator = ',\n';
          return piece;
        },
        after: '\n]\n',
      };
    }
    case 'jsonl':
      return { before: '', one: async (report) => formats.jsonl!(report), after: '' };
    case 'csv':
      return {
        before: formats.csv!.header(),
        one: async (report) => formats.csv!.records(report),
        after: '',
      };
    case 'text': {
      let separator = '';
      return {
        before: '',
        one: async (report) => {
          const piece = separator + (await formats.text(report));
          separator = '\n';
          return piece;
        },
        after: '',
      };
    }
  }
}
