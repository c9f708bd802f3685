import { svgToPng } from '../lib/report/index.js';
import { badArgument, wrongEnding } from './bad-argument.js';
import { type Io, print } from './io.js';
import { writeOut } from './output.js';

const USUAL_PIXELS = 1600;

export interface PictureFile {
  out: string;
  /** Width of a .png. */
  pixels?: number;
  force: boolean;
}

/**
 * What kind of picture a name asks for.
 *
 * @throws LieflatError `bad-argument` for a name that ends in neither .svg nor .png
 */
export function pictureKind(option: string, out: string): 'svg' | 'png' {
  const kind = /\.(svg|png)$/i.exec(out)?.[1].toLowerCase();
  if (!kind) throw wrongEnding(option, out, '.svg or .png');
  return kind as 'svg' | 'png';
}

/** A width as it is given; which widths there can be, the renderer says. @throws LieflatError `bad-argument` */
export function pixelsWide(given: string): number {
  if (/^\d+$/.test(given)) return Number(given);
  throw badArgument(`--pixels cannot be ${given}`, 'give a whole number of pixels, as 1600');
}

/** Writes an SVG document as it is, or rendered where the name ends in .png. */
export async function writePicture(svg: string, { out, pixels, force }: PictureFile, io: Io): Promise<void> {
  let content: string | Uint8Array = svg;
  if (/\.png$/i.test(out)) {
    const png = await svgToPng(svg, pixels ?? USUAL_PIXELS);
    content = png.data;
    if (!png.lettered) {
      await print(
        io.stderr,
        'lieflat: no font was found on this computer, so the picture has no lettering; draw an .svg instead\n',
      );
    }
  }
  await writeOut(out, content, force, io);
}
