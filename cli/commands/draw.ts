import { basename } from 'node:path';
import {
  DRAW_BY,
  drawDesign,
  readDesignFile,
  svgToPng,
  type Units,
  vetDesign,
  writeFileSafely,
} from '../../lib/index.js';
import { EXIT, type Handler } from '../command.js';
import { factsOf } from '../facts.js';
import { print } from '../io.js';
import { badArgument } from '../parse.js';
import { pathFrom } from '../settings.js';

const USUAL_PIXELS = 1600;

/** `lieflat draw`: the stitches to scale as a picture. */
export const draw: Handler = async (args, io) => {
  const out = args.value('out');
  const kind = out && /\.(svg|png)$/i.exec(out)?.[1].toLowerCase();
  if (!out || !kind) {
    throw badArgument('draw needs a picture to write', 'write -o and a name that ends in .svg or .png');
  }
  const pixels = args.value('pixels');
  if (pixels !== undefined && kind !== 'png') {
    throw badArgument('--pixels is for .png alone', 'leave it out: an .svg has no fixed size');
  }
  const file = await readDesignFile(pathFrom(io, args.words[0]));
  const svg = await drawDesign(vetDesign(file.design, { file: factsOf(file) }), {
    by: args.choice('by', DRAW_BY),
    title: basename(file.path),
    units: args.choice<Units>('units', ['mm', 'in']),
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
  await writeFileSafely(pathFrom(io, out), content, { force: args.flag('force'), inputs: [file.path] });
  return EXIT.clean;
};
