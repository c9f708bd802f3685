import { DRAW_BY } from '../lib/index.js';
import type { CommandSpec, OptionSpec } from './command.js';

/** Options that every command takes. */
export const COMMON_OPTIONS: Readonly<Record<string, OptionSpec>> = {
  profile: {
    value: 'FILE',
    help: "the shop's own settings; without it lieflat.config.json is looked for from here upward",
  },
  debug: { help: 'show where in the program an error came from' },
  help: { help: 'show this help', short: 'h' },
};

const units: OptionSpec = { value: 'UNITS', choices: ['mm', 'in'], help: 'units of printed lengths' };
const out: OptionSpec = { value: 'FILE', short: 'o', help: 'write to this file instead of the terminal' };
const force: OptionSpec = { help: 'replace the file if it is there already' };
const place: OptionSpec = {
  value: 'ID',
  help: 'where it is sewn, for the size limits; lieflat catalog places lists ids',
};
const hoop: OptionSpec = { value: 'SIZE', help: 'inside of the hoop, as 100x100 in mm or 4x4in, or its id' };

/** The commands in the order of the help: words, options, example and the file that does the work. */
export const COMMANDS: Readonly<Record<string, CommandSpec>> = {
  vet: {
    summary: 'Reads stitch files, measures every object in them and lists what is wrong.',
    usage: '<paths..>',
    words: [1, Number.POSITIVE_INFINITY],
    options: {
      format: { value: 'FORMAT', choices: ['text', 'json', 'jsonl', 'csv'], help: 'how to report' },
      objects: { help: 'list every object, not only those that matter most' },
      'fail-on': {
        value: 'LEVEL',
        choices: ['fail', 'warn', 'note'],
        help: 'exit with 1 from this level of finding on',
      },
      units,
      place,
      hoop,
      out,
      force,
    },
    example: 'lieflat vet orders/ --place left-chest --fail-on warn',
    load: async () => (await import('./commands/vet.js')).vet,
  },
  columns: {
    summary: 'Lists the satin columns of a design, widest first, and which need a lighter underlay.',
    usage: '<paths..>',
    words: [1, Number.POSITIVE_INFINITY],
    options: {
      over: { value: 'MM', help: 'only columns wider than this, as 4 in mm or 0.16in' },
      format: { value: 'FORMAT', choices: ['text', 'json', 'csv'], help: 'how to report' },
      units,
      out,
      force,
    },
    example: 'lieflat columns names.dst --over 4',
    load: async () => (await import('./commands/columns.js')).columns,
  },
  compare: {
    summary: 'Says what changed between two versions of a design.',
    usage: '<before> <after>',
    words: [2, 2],
    options: {
      format: { value: 'FORMAT', choices: ['text', 'json'], help: 'how to report' },
      units,
      place,
      hoop,
      out,
      force,
    },
    example: 'lieflat compare crest.dst crest-edited.dst',
    load: async () => (await import('./commands/compare.js')).compare,
  },
  draw: {
    summary: 'Draws the stitches to scale.',
    usage: '<file> -o <out.svg|out.png>',
    words: [1, 1],
    options: {
      out: { value: 'FILE', short: 'o', help: 'the picture; .svg or .png' },
      by: { value: 'WHAT', choices: DRAW_BY, help: 'what the colours stand for' },
      pixels: { value: 'N', help: 'width of a .png in pixels, 1600 if not said' },
      units,
      force,
    },
    example: 'lieflat draw crest.dst -o crest.png --by width',
    load: async () => (await import('./commands/draw.js')).draw,
  },
  convert: {
    summary: 'Turns a .dst stitch file into a .csv stitch table, or back.',
    usage: '<in> -o <out.csv|out.dst>',
    words: [1, 1],
    options: { out: { value: 'FILE', short: 'o', help: 'the file to write; .csv or .dst' }, force },
    example: 'lieflat convert crest.dst -o crest.csv',
    load: async () => (await import('./commands/convert.js')).convert,
  },
  catalog: {
    summary: 'Lists what is built in, with every value and where it comes from.',
    usage: '[places]',
    words: [0, 1],
    options: {
      format: { value: 'FORMAT', choices: ['text', 'json'], help: 'how to report' },
      units,
      out,
      force,
    },
    example: 'lieflat catalog places',
    load: async () => (await import('./commands/catalog.js')).catalog,
  },
};
