/** In the place of what the page leaves to the command line. */
import { LieflatError } from '../../../lib/index.js';

async function refuse(): Promise<never> {
  throw new LieflatError({
    code: 'bad-argument',
    place: 'this page',
    what: 'it cannot do that',
    todo: 'use lieflat at the command line, and for a picture an .svg here',
  });
}

export { refuse as page, refuse as svgToPng, refuse as watchFolders };
