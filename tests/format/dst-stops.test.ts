import { describe, expect, it } from 'vitest';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { rowsOf } from './designs.js';
import { raw, rawFile } from './raw-file.js';

const PAUSE = raw(0, 0, 'pause');
const SEW = raw(10, 0);
const TRIM = [raw(40, 0, 'jump'), raw(40, 0, 'jump'), raw(40, 0, 'jump')];

/** Kinds of the pauses of a file whose header counts so many colour changes, and the codes of what was said. */
function pauses(records: number[][], colours: number | null, extra: [string, string][] = []) {
  const CO = colours === null ? null : String(colours).padStart(3);
  const design = decodeDst(rawFile(records, { fields: { CO }, extra }));
  return {
    kinds: rowsOf(design)
      .map(([, , kind]) => kind)
      .filter((kind) => kind === 'colour' || kind === 'stop')
      .join(' '),
    said: design.diagnostics.map(({ code }) => code),
    first: design.diagnostics[0],
  };
}

describe('stops and colour changes', () => {
  const changeThenStraightOn = [SEW, PAUSE, ...TRIM, SEW, PAUSE, SEW];

  it('are all colour changes where the header counts them so, or counts nothing', () => {
    expect(pauses(changeThenStraightOn, 2)).toMatchObject({ kinds: 'colour colour', said: [] });
    expect(pauses(changeThenStraightOn, null).kinds).toBe('colour colour');
  });

  it('the header counts one fewer, and one pause has the sewing go straight on: a stop', () => {
    const read = pauses(changeThenStraightOn, 1);
    expect(read).toMatchObject({ kinds: 'colour stop', said: ['file-stops-assumed'] });
    expect(read.first).toMatchObject({ byte: 31, measured: 2, expected: 1 });
  });

  it('two pauses with nothing sewn between: the later is the stop', () => {
    expect(pauses([SEW, PAUSE, PAUSE, ...TRIM, SEW], 1).kinds).toBe('colour stop');
    expect(pauses([SEW, PAUSE, ...TRIM, PAUSE, SEW], 1).kinds).toBe('colour stop');
  });

  it('a pause before anything is sewn, or after all is sewn, is a stop', () => {
    expect(pauses([PAUSE, SEW, PAUSE, ...TRIM, SEW], 1).kinds).toBe('stop colour');
    expect(pauses([SEW, PAUSE, ...TRIM, SEW, PAUSE], 1).kinds).toBe('colour stop');
  });

  it('evidence that does not fit the count exactly is no evidence', () => {
    // Both pauses go straight on, one is wanted.
    const both = pauses([SEW, PAUSE, SEW, PAUSE, SEW], 1);
    expect(both).toMatchObject({ kinds: 'colour colour', said: ['file-colour-count'] });
    // None does, one is wanted.
    const neither = pauses([SEW, PAUSE, ...TRIM, SEW, PAUSE, ...TRIM, SEW], 1);
    expect(neither).toMatchObject({ kinds: 'colour colour', said: ['file-colour-count'] });
    // A jump on the way, or a way that no stitch can go, is not straight on.
    expect(pauses([SEW, PAUSE, raw(5, 0, 'jump'), SEW], 0).kinds).toBe('colour');
    expect(pauses([SEW, raw(60, 0, 'pause'), raw(100, 0)], 0).kinds).toBe('colour');
    // A header that counts more than there are says nothing about stops.
    expect(pauses(changeThenStraightOn, 3)).toMatchObject({
      kinds: 'colour colour',
      said: ['file-colour-count'],
    });
  });

  it('nothing sewn around a pause outweighs sewing straight on', () => {
    expect(pauses([SEW, PAUSE, SEW, PAUSE, PAUSE, ...TRIM, SEW], 2).kinds).toBe('colour colour stop');
    expect(pauses([SEW, PAUSE, SEW, PAUSE, PAUSE, ...TRIM, SEW], 1).kinds).toBe('stop colour stop');
  });

  it('a list of stops in the header is believed if it fits', () => {
    expect(pauses(changeThenStraightOn, 1, [['PS', '1']])).toMatchObject({ kinds: 'stop colour', said: [] });
    expect(pauses(changeThenStraightOn, 0, [['PS', '1, 2']])).toMatchObject({ kinds: 'stop stop', said: [] });
    for (const list of ['3', '0', '2,1', '1,1', 'x', '']) {
      const read = pauses(changeThenStraightOn, 2, [['PS', list]]);
      expect(read.kinds, list).toBe('colour colour');
      expect(read.said, list).toEqual(['file-stop-list']);
      expect(read.first.byte, list).toBe(124);
    }
  });

  it('a list of threads is spread over the colour blocks if it fits', () => {
    const records = [SEW, PAUSE, SEW, PAUSE, SEW];
    const read = (extra: [string, string][], CO = '  2') =>
      decodeDst(rawFile(records, { extra, fields: { CO } }));
    expect(Array.from(read([['TN', '7,0,3']]).thread ?? [])).toEqual([7, 0, 0, 3, 3, 3]);
    // A stop is no new block.
    const withStop = read(
      [
        ['PS', '1'],
        ['TN', '7,3'],
      ],
      '  1',
    );
    expect(Array.from(withStop.thread ?? [])).toEqual([7, 7, 7, 3, 3, 3]);
    for (const list of ['7,0', '1,2,3,4', 'red', '']) {
      const wrong = read([['TN', list]]);
      expect(wrong.thread, list).toBeNull();
      expect(wrong.diagnostics.map(({ code }) => code)).toEqual(['file-thread-list']);
    }
  });
});
