/** A document as text of any width: for a terminal with its paint, for a file without. */
import {
  type Block,
  type Entry,
  type Fact,
  isFor,
  type ReportDocument,
  type Rich,
  type Span,
  spansOf,
  type Table,
  textOf,
} from '../document.js';
import { count } from '../quantities.js';
import { NO_PAINT, type Paint } from './paint.js';
import { printable } from './printable.js';
import { textTable } from './text-table.js';
import { displayWidth, wrap } from './wrap.js';

/** How text is set. */
export interface TextLook {
  /** Columns to fit in. */
  readonly width: number;
  /** None without it. */
  readonly paint?: Paint;
}

const INDENT = '  ';
/** The least room of a label, so that lists of facts with short labels stand alike. */
const LABEL = 10;
const LONGEST_BAR = 40;

/** Sets a document; ends with a line feed. */
export const renderText = (document: ReportDocument, look: TextLook): string =>
  blocksAsText(document.blocks, look);

/** Sets some blocks, an empty line between those that stand apart. */
export function blocksAsText(blocks: readonly Block[], look: TextLook): string {
  const set = new TextSetter(look.width, look.paint ?? NO_PAINT);
  return set
    .blocks(blocks, '')
    .map((line) => `${line}\n`)
    .join('');
}

class TextSetter {
  constructor(
    private readonly width: number,
    private readonly paint: Paint,
  ) {}

  blocks(blocks: readonly Block[], indent: string): string[] {
    const lines: string[] = [];
    let before: Block | null = null;
    for (const block of blocks) {
      if (!isFor('text', block)) continue;
      const set = this.block(block, indent);
      if (set.length === 0) continue;
      if (before && standsApart(before, block, indent === '')) lines.push('');
      for (const line of set) lines.push(line);
      before = block;
    }
    return lines;
  }

  private block(block: Block, indent: string): string[] {
    switch (block.is) {
      case 'verdict':
        return this.marked(block, block.line, indent, indent + INDENT);
      case 'section': {
        const inner = this.blocks(block.blocks, indent + INDENT);
        return inner.length === 0 ? [] : [...this.wrapped(block.title, indent), ...inner];
      }
      case 'facts':
        return this.facts(block.facts, indent === '' ? INDENT : indent);
      case 'paragraph':
      case 'caution':
        return this.wrapped(block.text, indent);
      case 'list':
        return block.items.flatMap((item, i) => {
          const sign = block.ordered ? `${i + 1}. ` : '- ';
          return this.wrapped(item, indent + sign, indent + ' '.repeat(sign.length));
        });
      case 'entries':
        return block.entries.flatMap((entry) => this.entry(entry, indent));
      case 'table':
        return this.table(block, indent);
      case 'bars':
        return this.bars(block.title, block.bars, indent);
      case 'figure':
        return [];
    }
  }

  private facts(facts: readonly Fact[], indent: string): string[] {
    const room = Math.max(LABEL, ...facts.map(({ label }) => displayWidth(label) + INDENT.length));
    return facts.flatMap(({ label, text }) =>
      this.wrapped(text, indent + label.padEnd(room), indent + ' '.repeat(room)),
    );
  }

  private entry(entry: Entry, indent: string): string[] {
    const hanging = ' '.repeat(displayWidth(`${indent}${entry.word}  `));
    return [
      ...this.marked(entry, entry.head, indent, hanging),
      ...entry.lines.flatMap((line) => this.wrapped(line, hanging)),
    ];
  }

  /** The word of a level, and what it is about. */
  private marked(
    { word, level }: Pick<Entry, 'word' | 'level'>,
    about: Rich,
    indent: string,
    hanging: string,
  ): string[] {
    const lines = this.wrapped(strong(about), `${indent}${word}  `, hanging);
    lines[0] = lines[0].replace(word, this.paint[level](word));
    return lines;
  }

  private table({ columns, rows, caption, more = 0, mostRows, tail, note }: Table, indent: string): string[] {
    const shown = columns.flatMap((column, i) => (isFor('text', column) ? [{ ...column, i }] : []));
    const kept = rows.slice(0, mostRows);
    const left = more + rows.length - kept.length;
    const set = textTable(
      shown.map(({ head, number, flexible, breaks }) => ({
        head,
        align: number ? 'right' : 'left',
        flexible,
        breaks,
      })),
      kept.map((row) => shown.map(({ i }) => printable(spansText(textOf(row[i]))))),
      this.width,
      indent,
    );
    return [
      ...(caption ? this.wrapped(caption, indent) : []),
      ...(kept.length > 0 ? this.paintedRows(set, kept, shown) : []),
      ...(left > 0 && tail ? this.wrapped(tail(left), indent) : []),
      ...(note ? this.wrapped(note, indent) : []),
    ];
  }

  /** Levels in cells of a table that stands already: paint would count as width. */
  private paintedRows(
    lines: readonly string[],
    rows: Table['rows'],
    shown: readonly { i: number }[],
  ): string[] {
    if (this.paint === NO_PAINT) return [...lines];
    const marks = rows.flatMap((row) =>
      shown.flatMap(({ i }) => spansOf(textOf(row[i])).filter((span) => span.level)),
    );
    let next = 0;
    return lines.map((line) => {
      let [done, rest] = ['', line];
      for (; next < marks.length; next++) {
        const at = rest.indexOf(marks[next].text);
        if (at < 0) break;
        const end = at + marks[next].text.length;
        done += rest.slice(0, at) + this.painted(marks[next], rest.slice(at, end));
        rest = rest.slice(end);
      }
      return done + rest;
    });
  }

  private bars(title: string, bars: readonly { range: string; count: number }[], indent: string): string[] {
    const most = Math.max(...bars.map((bar) => bar.count));
    const ranges = Math.max(...bars.map(({ range }) => range.length));
    const digits = count(most).length;
    const inner = indent + INDENT;
    const room = Math.max(1, Math.min(LONGEST_BAR, this.width - inner.length - ranges - digits - 4));
    return [
      ...this.wrapped(title, indent),
      // What is there shows, however little.
      ...bars.map((bar) =>
        `${inner}${bar.range.padStart(ranges)}  ${count(bar.count).padStart(digits)}  ${'#'.repeat(Math.ceil((bar.count / most) * room))}`.trimEnd(),
      ),
    ];
  }

  /** Breaks a text into lines; what is set apart is painted when the lines stand. */
  private wrapped(text: Rich, first: string, indent = first): string[] {
    const spans = spansOf(text).map((span) => ({ ...span, text: printable(span.text) }));
    const lines = wrap(spans.map((span) => span.text).join(''), this.width, first, indent);
    if (this.paint === NO_PAINT || !spans.some((span) => span.level || span.strong)) return lines;
    // Breaking a text changes nothing but its blanks, so the other characters of the lines are those of the spans, in order.
    const owners = spans.flatMap((span) => Array.from(span.text.replace(/ /g, ''), () => span));
    let next = 0;
    return lines.map((line, i) => {
      const lead = i === 0 ? first : indent;
      let [done, run, owner] = [lead, '', null as Span | null];
      for (const char of line.slice(lead.length)) {
        const span = char === ' ' ? owner : owners[next++];
        if (span !== owner) {
          done += this.painted(owner, run);
          [run, owner] = ['', span];
        }
        run += char;
      }
      return done + this.painted(owner, run);
    });
  }

  private painted(span: Span | null, text: string): string {
    if (span === null || text === '') return text;
    const inked = span.level ? this.paint[span.level](text) : text;
    return span.strong ? this.paint.strong(inked) : inked;
  }
}

const strong = (text: Rich): Span[] => spansOf(text).map((span) => ({ ...span, strong: true }));

const spansText = (text: Rich): string =>
  spansOf(text)
    .map((span) => span.text)
    .join('');

/** Whether an empty line parts two blocks: all of the outermost, but facts follow the verdict; within a section only what has a heading. */
function standsApart(before: Block, block: Block, outermost: boolean): boolean {
  const headed = (one: Block) => one.is === 'section' || one.is === 'bars';
  if (!outermost) return headed(before) || headed(block);
  return !((before.is === 'verdict' || before.is === 'facts') && block.is === 'facts');
}
