import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { FILL_UNDERLAYS, fillDraft, randomFill } from '../fill.js';
import { lock, randomLocks } from '../locks.js';
import { type Case, Pen, randomTransform } from '../pen.js';
import { Random } from '../random.js';
import { concaveOutline, holedOutline, type Outline, simpleOutline } from '../shapes.js';

function single(
  family: string,
  seed: number,
  outline: (random: Random) => Outline,
  underlay?: readonly UnderlayKind[],
): Case {
  const random = new Random(seed, family);
  for (;;) {
    const { region, name } = outline(random);
    const style = randomFill(random, underlay ?? random.pick(FILL_UNDERLAYS));
    const draft = fillDraft(region, style, null, random, name);
    if (!draft) continue;
    const locks = randomLocks(random);
    lock(draft, locks);
    const pen = new Pen();
    pen.sew(draft);
    const t = randomTransform(random);
    return pen.finish(
      family,
      seed,
      `${draft.note}; locks ${locks.style} ${locks.size.toFixed(2)}×${locks.count} ${draft.locks.start ? 'start' : ''} ${draft.locks.end ? 'end' : ''}; turn ${t.degrees.toFixed(0)}${t.jitter ? ' jitter' : ''}`,
      t,
      random,
    );
  }
}

export const FILL_FAMILIES: Record<string, (seed: number) => Case> = {
  'fill-simple': (seed) => single('fill-simple', seed, (r) => simpleOutline(r)),
  'fill-concave': (seed) => single('fill-concave', seed, concaveOutline),
  'fill-holes': (seed) => single('fill-holes', seed, holedOutline),
  'underlay-fill': (seed) =>
    single('underlay-fill', seed, (r) => simpleOutline(r, 16, 50), FILL_UNDERLAYS[seed % 4]),
};
