/** How each format sets one report, and how several follow one another. */
export interface Formats<T> {
  text: (report: T) => string;
  json: (report: T) => string;
  jsonl?: (report: T) => string;
  csv?: { header: () => string; records: (report: T) => string };
  /** A page opens with an index of all that is on it, so its parts are kept until it is whole. */
  html?: { part: (report: T, number: number) => Promise<unknown>; page: () => Promise<string> };
}

export interface Formatter<T> {
  before: string;
  one: (report: T) => string | Promise<string>;
  after: () => string | Promise<string>;
}

const nothing = (): string => '';

/**
 * Sets reports one by one as they come: JSON is one object for one file and an array for several (or none), a table
 * has its heading once, texts are set apart by an empty line.
 */
export function formatter<T>(format: keyof Formats<T>, files: number, formats: Formats<T>): Formatter<T> {
  switch (format) {
    case 'json': {
      if (files === 1) return { before: '', one: formats.json, after: nothing };
      let separator = '\n';
      return {
        before: '[',
        one: (report) => {
          const piece = separator + formats.json(report).trimEnd();
          separator = ',\n';
          return piece;
        },
        after: () => '\n]\n',
      };
    }
    case 'jsonl':
      return { before: '', one: formats.jsonl!, after: nothing };
    case 'csv':
      return {
        before: formats.csv!.header(),
        one: formats.csv!.records,
        after: nothing,
      };
    case 'html': {
      const { part, page } = formats.html!;
      let number = 0;
      return {
        before: '',
        one: async (report) => {
          await part(report, ++number);
          return '';
        },
        after: page,
      };
    }
    case 'text': {
      let separator = '';
      return {
        before: '',
        one: (report) => {
          const piece = separator + formats.text(report);
          separator = '\n';
          return piece;
        },
        after: nothing,
      };
    }
  }
}
