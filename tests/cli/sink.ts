import type { Sink } from '../../cli/io.js';

/** Takes every piece as it is written. */
export function sinkInto(pieces: string[]): Sink {
  return {
    write(text, done) {
      pieces.push(text);
      done();
    },
  };
}
