/** Which rows of which sections an object is made of, and where they are once those are laid anew. */
import type { StitchObject, StitchRange } from '../segment/objects.js';
import type { Section } from '../stitch/find-sections.js';
import type { SewnSection } from '../stitch/sew-section.js';
import type { LeftPart } from './enlargement.js';

/** An object is laid anew if this share of its rows is. */
const MOST_OF_ROWS = 0.7;

/** Where needle points as found have come to lie among those laid anew. */
export interface NewPlaces {
  /** The new number of a needle point as found. */
  place(i: number): number;
  /** That of the first needle point of a section. */
  start(section: Section): number;
}

export type Laid = (section: Section) => SewnSection;

/** Which sections the rows of an object are in. */
export class RowBook {
  private readonly sections = new Map<StitchObject, Section[]>();

  /** @param unlike ids of objects that are not what they were when they are sewn again: their stitches stay */
  constructor(
    sections: readonly Section[],
    private readonly unlike: ReadonlySet<number>,
  ) {
    for (const section of sections) {
      const list = this.sections.get(section.object);
      if (list === undefined) this.sections.set(section.object, [section]);
      else list.push(section);
    }
  }

  private sectionsOf(object: StitchObject, role: Section['role']): Section[] {
    return (this.sections.get(object) ?? []).filter((section) => section.role === role);
  }

  /** The rows of an object's top stitching: those of its sections as laid, others where their ends have come to lie. */
  rows(
    object: StitchObject,
    sewn: NewPlaces,
    sewnSection: Laid,
  ): Pick<StitchObject, 'from' | 'to' | 'sections'> {
    const byRow = new Map(this.sectionsOf(object, 'top').map((section) => [section.row, section]));
    const from: number[] = [];
    const to: number[] = [];
    const sections: number[] = [];
    const firsts = new Set(object.sections);
    for (let k = 0; k < object.from.length; ) {
      if (firsts.has(k)) sections.push(from.length);
      const section = byRow.get(k);
      if (section === undefined) {
        from.push(sewn.place(object.from[k]));
        to.push(sewn.place(object.to[k]));
        k++;
        continue;
      }
      const laid = sewnSection(section);
      const start = sewn.start(section);
      laid.like.forEach((like, n) => {
        // where a row as found holds the step over to the next, so does one like it
        const stepBefore = object.from[k + like] < section.from[like] && n > 0;
        const stepAfter = object.to[k + like] > section.to[like] && n + 1 < laid.from.length;
        from.push(start + (stepBefore ? laid.to[n - 1] : laid.from[n]));
        to.push(start + (stepAfter ? laid.from[n + 1] : laid.to[n]));
      });
      k += section.from.length;
    }
    return { from: Int32Array.from(from), to: Int32Array.from(to), sections: Int32Array.from(sections) };
  }

  /** What of an object is in no section though it is sewn in rows. */
  leftOf(object: StitchObject, underlayToo: boolean): LeftPart[] {
    const rows = this.sectionsOf(object, 'top').reduce((n, { from }) => n + from.length, 0);
    const { id, kind, from, underlay } = object;
    if (this.unlike.has(id)) return [{ object: id, part: 'top', because: 'no-rule' }];
    const left: LeftPart[] = [];
    if (kind !== 'run' && rows < MOST_OF_ROWS * from.length) {
      left.push({ object: id, part: 'top', because: 'few-rows' });
    }
    if (underlayToo && underlay.spacingMm !== null && this.sectionsOf(object, 'underlay').length === 0) {
      left.push({ object: id, part: 'underlay', because: 'few-rows' });
    }
    return left;
  }

  /** Spacing of an object's underlay as a share of what it was: that of its longest section; 1 where it has none. */
  underlaySpacing(object: StitchObject, sewnSection: Laid): number {
    const [longest] = this.sectionsOf(object, 'underlay').sort((a, b) => b.from.length - a.from.length);
    return longest === undefined ? 1 : sewnSection(longest).spacing;
  }
}

const renumbered = ([a, b]: StitchRange, { place }: NewPlaces): StitchRange => [place(a), place(b)];

/** An object with its top stitching among the new stitches. */
export function topped(
  object: StitchObject,
  sewn: NewPlaces,
  book: RowBook,
  sewnSection: Laid,
): StitchObject {
  return { ...object, ...book.rows(object, sewn, sewnSection), range: renumbered(object.range, sewn) };
}

export function underlayOf(
  object: StitchObject,
  sewn: NewPlaces,
  book: RowBook,
  sewnSection: Laid,
): StitchObject['underlay'] {
  const { underlay } = object;
  const range = underlay.range && renumbered(underlay.range, sewn);
  const more = range && underlay.range ? range[1] - range[0] - (underlay.range[1] - underlay.range[0]) : 0;
  return {
    ...underlay,
    range,
    stitches: underlay.stitches + more,
    spacingMm: underlay.spacingMm && underlay.spacingMm * book.underlaySpacing(object, sewnSection),
  };
}
