import { svgToPng } from '../lib/index.js';
import { wrongEnding } from './bad-argument.js';
import { type Io, print } from './io.js';
import { writeOut } from './output.js';

const USUAL_PIXELS = 1600;

export interface PictureFile {
  out: string;
  /** Width of a .png. */
  pixels?: string;
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

/** Writes an SVG document as it is, or rendered where the name ends in .png. */
export async function writePicture(svg: string, { out, pixels, force }: PictureFile, io: Io): Promise<void> {
  let content: string | Uint8Array = svg;
  if (/\.png$/i.test(out)) {
    const png = await svgToPng(svg, pixels === undefined ? USUAL_PIXELS : Number(pixels));
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
