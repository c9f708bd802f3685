import { DRAW_BY } from '../lib/index.js';
import { type Command, command } from './command.js';
import { goods, goodsToCompare, goodsToPlan } from './goods.js';
import { fit, flag, force, many, oneOf, report, units, value } from './options.js';

/** The commands in the order of the help: words, options, example and the file that does the work. */
export const COMMANDS: Readonly<Record<string, Command>> = {
  vet: command({
    summary: 'Reads stitch files, measures every object in them and lists what is wrong.',
    usage: '<paths..>',
    words: [1, Number.POSITIVE_INFINITY],
    options: {
      format: oneOf(['text', 'json', 'jsonl', 'csv', 'html'], 'how to report'),
      objects: flag('list every object, not only those that matter most'),
      'fail-on': oneOf(['fail', 'warn', 'note', 'never'], 'exit with 1 from this level of finding on'),
      ...fit,
      ...goods,
      ...many,
      since: {
        ...value('<report.jsonl> pass over files whose content it reports under the same settings'),
        array: true,
        nargs: 1,
      },
      watch: flag('vet what is in the folders, then what comes into them once it is whole; Ctrl-C sums up'),
      summary: value('<file> write the summary of all files to it as well; .html, .json or .txt'),
      quiet: flag('no summary on standard error'),
      ...report,
    },
    example: 'lieflat vet orders/ --place left-chest --fail-on warn',
    load: async () => (await import('./commands/vet.js')).vet,
  }),
  columns: command({
    summary: 'Lists the satin columns of a design, widest first, and which need a lighter underlay.',
    usage: '<paths..>',
    words: [1, Number.POSITIVE_INFINITY],
    options: {
      over: value('<length> only columns wider than this, as 4 in mm or 0.16in'),
      format: oneOf(['text', 'json', 'csv'], 'how to report'),
      ...goods,
      ...many,
      ...report,
    },
    example: 'lieflat columns names.dst --over 4',
    load: async () => (await import('./commands/columns.js')).columns,
  }),
  pucker: command({
    summary: 'Foresees how far a design will pucker on a fabric, over one backing or several compared.',
    usage: '<file> --fabric <id>',
    words: [1, 1],
    options: {
      ...goodsToCompare,
      format: oneOf(['text', 'json'], 'how to report'),
      objects: flag('list every object, not only the worst'),
      map: value('<file> a picture of the wrinkles over the stitches; .svg or .png'),
      ...report,
    },
    example: 'lieflat pucker name.dst --fabric performance-knit --stack cutaway-2.5oz',
    load: async () => (await import('./commands/pucker.js')).pucker,
  }),
  advise: command({
    summary: 'Says what to put behind, under and over a design on a fabric, and what that costs.',
    usage: '<file> --fabric <id>',
    words: [1, 1],
    options: {
      ...goodsToPlan('advise'),
      ...fit,
      format: oneOf(['text', 'json', 'html'], 'how to report'),
      all: flag('list every plan and every object that needs something'),
      ...report,
    },
    example: 'lieflat advise name.dst --fabric performance-knit',
    load: async () => (await import('./commands/advise.js')).advise,
  }),
  compare: command({
    summary: 'Says what changed between two versions of a design.',
    usage: '<before> <after>',
    words: [2, 2],
    options: { format: oneOf(['text', 'json'], 'how to report'), ...fit, ...goods, ...report },
    example: 'lieflat compare crest.dst crest-edited.dst',
    load: async () => (await import('./commands/compare.js')).compare,
  }),
  card: command({
    summary: 'Sets the printed page that goes to the machine operator.',
    usage: '<file> --fabric <id> -o <card.html>',
    words: [1, 1],
    options: {
      out: value('<file> the page; .html', {
        alias: 'o',
        demandOption: 'card needs a page to write; write -o and a name that ends in .html',
      }),
      paper: oneOf(['a4', 'letter'], 'the paper it is printed on'),
      cost: flag('print what a piece costs as well'),
      ...goodsToPlan('card'),
      ...fit,
      units,
      force,
    },
    example: 'lieflat card name.dst --fabric performance-knit -o card.html',
    load: async () => (await import('./commands/card.js')).card,
  }),
  draw: command({
    summary: 'Draws the stitches to scale.',
    usage: '<file> -o <out.svg|out.png>',
    words: [1, 1],
    options: {
      out: value('<file> the picture; .svg or .png', {
        alias: 'o',
        demandOption: 'draw needs a picture to write; write -o and a name that ends in .svg or .png',
      }),
      by: oneOf(DRAW_BY, 'what the colours stand for'),
      ...goods,
      pixels: value('<number> width of a .png in pixels, 1600 if not said'),
      units,
      force,
    },
    example: 'lieflat draw crest.dst -o crest.png --by width',
    load: async () => (await import('./commands/draw.js')).draw,
  }),
  convert: command({
    summary: 'Turns a .dst stitch file into a .csv stitch table, or back.',
    usage: '<in> -o <out.csv|out.dst>',
    words: [1, 1],
    options: {
      out: value('<file> the file to write; .csv or .dst', {
        alias: 'o',
        demandOption: 'convert needs a file to write; write -o and a name that ends in .csv or .dst',
      }),
      force,
    },
    example: 'lieflat convert crest.dst -o crest.csv',
    load: async () => (await import('./commands/convert.js')).convert,
  }),
  catalog: command({
    summary: 'Lists what is built in, with every value and where it comes from.',
    usage: '[fabrics|sheets|toppings|threads|needles|places|hoops] [<id>]',
    words: [0, 2],
    options: {
      format: oneOf(['text', 'json'], 'how to report'),
      all: flag('every value of all that is listed, not only their names'),
      ...report,
    },
    example: 'lieflat catalog fabrics pique-knit',
    load: async () => (await import('./commands/catalog.js')).catalog,
  }),
};
