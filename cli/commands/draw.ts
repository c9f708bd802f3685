import { basename } from 'node:path';
import {
  type DrawBy,
  drawDesign,
  readDesignFile,
  svgToPng,
  type Units,
  vetDesign,
  writeFileSafely,
} from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT, type Handler, type Words } from '../command.js';
import { factsOf } from '../facts.js';
import { print } from '../io.js';
import { pathFrom } from '../settings.js';

interface DrawArgs extends Words {
  out: string;
  by: DrawBy;
  pixels?: string;
  units: Units;
  force: boolean;
}

const USUAL_PIXELS = 1600;

/** `lieflat draw`: the stitches to scale as a picture. */
export const draw: Handler<DrawArgs> = async (args, io) => {
  const { out, by, pixels, units, force } = args;
  const kind = /\.(svg|png)$/i.exec(out)?.[1].toLowerCase();
  if (!kind) {
    throw badArgument('draw needs a picture to write', 'write -o and a name that ends in .svg or .png');
  }
  if (pixels !== undefined && kind !== 'png') {
    throw badArgument('--pixels is for .png alone', 'leave it out: an .svg has no fixed size');
  }
  const file = await readDesignFile(pathFrom(io, args.words[0]));
  const svg = await drawDesign(vetDesign(file.design, { file: factsOf(file) }), {
    by,
    title: basename(file.path),
    units,
  });
  let content: string | Uint8Array = svg;
  if (kind === 'png') {
    const png = await svgToPng(svg, pixels === undefined ? USUAL_PIXELS : Number(pixels));
    content = png.data;
    if (!png.lettered) {
      await print(
        io.stderr,
        'lieflat: no font was found on this computer, so the picture has no lettering; draw an .svg instead\n',
      );
    }
  }
  await writeFileSafely(pathFrom(io, out), content, { force, inputs: [file.path] });
  return EXIT.clean;
};
