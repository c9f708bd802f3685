/**
 * A report as a document: what it says, in order, without a word of how it looks. A builder makes it once from data;
 * `render/` sets it as text of any width, as a page, or as plain mail. Texts are raw: renderers make them safe.
 */

export interface ReportDocument {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  readonly blocks: readonly Block[];
}

export type Level = 'sound' | 'note' | 'warn' | 'fail';

/** A stretch of text that is set apart. */
export interface Span {
  readonly text: string;
  readonly strong?: boolean;
  readonly quiet?: boolean;
  /** In the color of a level; the words say it as well. */
  readonly level?: Level;
  /** Pages alone: where it leads. */
  readonly href?: string;
}

export type Rich = string | readonly (string | Span)[];

export type Block =
  | Verdict
  | ReportSection
  | Facts
  | Paragraph
  | List
  | Entries
  | Table
  | Bars
  | Figure
  | Caution;

interface Common {
  /** Only where they must differ: text, pages, or of pages those on a screen or on paper alone. All without it. */
  readonly for?: 'text' | 'page' | 'screen' | 'paper';
}

/** The answer first: a word in capitals and what it is about. */
export interface Verdict extends Common {
  readonly is: 'verdict';
  readonly level: Level;
  readonly word: string;
  readonly line: Rich;
}

/** Blocks under a heading. */
export interface ReportSection extends Common {
  readonly is: 'section';
  readonly title: Rich;
  readonly blocks: readonly Block[];
  /** Unique on a page, for links to it. */
  readonly id?: string;
}

/** Labels with what they stand for. */
export interface Facts extends Common {
  readonly is: 'facts';
  readonly facts: readonly Fact[];
}

/** Without a label it goes on with the one before. */
export interface Fact {
  readonly label: string;
  readonly text: Rich;
}

export interface Paragraph extends Common {
  readonly is: 'paragraph';
  readonly text: Rich;
}

export interface List extends Common {
  readonly is: 'list';
  readonly ordered?: boolean;
  readonly items: readonly Rich[];
}

/** Things with a level each, a head that names one and what is said of it: findings of one kind are one. */
export interface Entries extends Common {
  readonly is: 'entries';
  readonly entries: readonly Entry[];
}

export interface Entry {
  readonly level: Level;
  /** The level in a word of four letters or so. */
  readonly word: string;
  readonly head: Rich;
  /** Each on a line of its own. */
  readonly lines: readonly Rich[];
  /** Pages alone: markup of a small `svg`, as the number that the entry has in a figure. */
  readonly sign?: string;
}

export interface Table extends Common {
  readonly is: 'table';
  /** Unique on a page. */
  readonly id: string;
  readonly caption?: string;
  readonly columns: readonly TableColumn[];
  /** A cell a column; those of columns that are for the other medium stand there all the same. */
  readonly rows: readonly (readonly Cell[])[];
  /** Rows that are not among them; `tail` says so. */
  readonly more?: number;
  /** Says how many rows are left out, the surplus over {@link mostRows} included. */
  readonly tail?: (left: number) => string;
  readonly mostRows?: number;
  /** Below the table. */
  readonly note?: string;
}

export interface TableColumn extends Common {
  readonly head: string;
  /** Figures stand to the right. */
  readonly number?: boolean;
  /** This cell names its row. */
  readonly namesRow?: boolean;
  /** Text alone, at most one: takes the room that the others leave, and breaks over lines. */
  readonly flexible?: boolean;
  /** With `flexible`: between any two characters, as long names of files have no blanks. */
  readonly breaks?: boolean;
  /** Pages alone: may be sorted by, by the cell's `by`. */
  readonly sorts?: boolean;
}

/** `by` is what a sortable column orders the row by, null last; without it the text. */
export type Cell = Rich | { readonly text: Rich; readonly by: number | string | null };

/** Counts in steps, as bars. */
export interface Bars extends Common {
  readonly is: 'bars';
  readonly title: string;
  readonly bars: readonly { readonly range: string; readonly count: number }[];
}

/** Pages alone: a picture with its caption and the key of its signs. */
export interface Figure {
  readonly is: 'figure';
  readonly for?: 'page' | 'screen' | 'paper';
  /** Markup of an `svg` element. */
  readonly svg: string;
  readonly caption: Rich;
  readonly key?: readonly { readonly svg: string; readonly text: string }[];
  /** Names the frame that scrolls it, where it is large. */
  readonly label?: string;
}

/** What may hurt somebody. */
export interface Caution extends Common {
  readonly is: 'caution';
  readonly text: Rich;
}

/** The stretches of a text, none of them empty. */
export const spansOf = (text: Rich): readonly Span[] =>
  (typeof text === 'string' ? [text] : text)
    .map((span) => (typeof span === 'string' ? { text: span } : span))
    .filter((span) => span.text !== '');

/** A text without what sets its parts apart. */
export const plainOf = (text: Rich): string =>
  typeof text === 'string'
    ? text
    : spansOf(text)
        .map((span) => span.text)
        .join('');

/** What a cell shows. */
export const textOf = (cell: Cell): Rich =>
  typeof cell === 'object' && !Array.isArray(cell) ? (cell as { text: Rich }).text : (cell as Rich);

/** What a cell orders its row by. */
export const orderOf = (cell: Cell): number | string | null =>
  typeof cell === 'object' && !Array.isArray(cell)
    ? (cell as { by: number | string | null }).by
    : plainOf(cell as Rich);

/** Whether a block or column is set in a medium. */
export const isFor = (medium: 'text' | 'page', { for: only }: Common): boolean =>
  only === undefined || (only === 'text') === (medium === 'text');
