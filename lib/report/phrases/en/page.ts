/** The page for people without a terminal: what stands on it beside the reports that it shows. */
import type { ResewMode } from '../../../rework/resew-mode.js';
import type { Voice } from '../voice.js';

/** Labels of fields, by the option that each gives. */
const field = {
  fabric: 'Garment',
  place: 'Place',
  hoop: 'Hoop',
  quantity: 'How many pieces',
  threads: 'Thread colors',
  'garment-color': 'Garment color',
  order: 'Order number',
  customer: 'Customer',
  due: 'Due',
  remarks: 'Remarks for the operator',
  language: 'Language of the card',
  scale: 'How much larger, in percent',
  slack: 'How far off hooping may be, as 0.3 mm or 0.01 in',
  mode: 'Way',
};

const hint = {
  fabric: 'In everyday words: hoodie, polo, T-shirt, towel, cap …',
  threads: 'In sewing order, such as "navy, #c8102e, white". A stitch file holds no colors.',
  'garment-color': 'Such as "light gray".',
};

const way: Readonly<Record<ResewMode | 'best', string>> = {
  best: 'the one that hides most',
  widen: 'widen: each column widened where it stands',
  regenerate: 'regenerate: stitches laid again at the spacing they had',
  machine: 'machine: scaled as the machine does it',
};

export const page = {
  /** Titles of the parts: each a question or an order. */
  ask: 'Will it lie flat?',
  promise: 'Everything is worked out on this computer. No file leaves it.',
  skip: 'Skip to the content',
  units: 'Lengths',
  millimeters: 'mm first',
  inches: 'inches first',
  files: {
    title: 'Which file?',
    drop: 'Drop stitch files (.dst) or a folder anywhere on this page',
    or: 'or',
    choose: 'Choose files',
    chooseFolder: 'Choose a folder',
    profileHint:
      "Your shop's own figures (lieflat.config.json) and the table of an order (.csv) may be dropped as well.",
    more: 'Drop more, or choose them here.',
    inUse: ({ file }: { file: string }, _: Voice): string =>
      `${file}: your shop's own figures are in use now.`,
    table: ({ file }: { file: string }, _: Voice): string => `${file}: taken as the table of an order.`,
    none: 'There is no stitch file among these. Choose files that end in .dst.',
    unread: 'This could not be read by the browser. Copy it to this computer and try again.',
    tooLarge: 'larger than 32 MB, which no stitch file is. Choose another.',
    checked: ({ done, of }: { done: number; of: number }, say: Voice): string =>
      `${say.count(done)} of ${say.counted(of, 'file')} checked`,
    caption: 'The files, worst first. Choose one to see it in full.',
    notRead: 'CANNOT BE READ',
  },
  column: {
    file: 'file',
    verdict: 'verdict',
    size: (_: Record<never, never>, say: Voice): string => `size ${say.units}`,
    stitches: 'stitches',
    time: 'time',
    wrong: 'what is wrong',
  },
  check: {
    title: 'Is it good to sew?',
    said: ({ file, verdict, tally }: { file: string; verdict: string; tally: string }, _: Voice): string =>
      `${file}: ${verdict}. ${tally}`,
    next: {
      fail: 'Next: send the letter to the digitizer (below), and sew the file that comes back.',
      warn: 'Next: look at what was found, and pick the garment below. Some of it a new stitch file takes care of.',
      sound: 'Next: pick the garment below for what to load.',
    },
    objects: 'Every object, in sewing order',
    onGarment:
      'Checked before the garment was known. On underlay and speed go by "What to load" below: it knows the garment.',
  },
  job: {
    title: 'What is it sewn on?',
    find: 'Find the setup',
    /** `akin`: garments that share a word with it. */
    unknown: ({ typed, akin }: { typed: string; akin: readonly string[] }, _: Voice): string =>
      akin.length === 0
        ? `No garment is called "${typed}" here. Choose one of the list, or answer the four questions below.`
        : `"${typed}" may be several garments: ${akin.join(', ')}. Type one of them, or answer the four questions below.`,
    empty: 'Say what it is sewn on, such as hoodie, or answer the four questions.',
    unlisted: 'Not in the list? Answer four questions',
    ledTo: ({ name }: { name: string }, _: Voice): string =>
      `Taken as ${name}: your answers come nearest to it.`,
    toAnswer: 'choose',
    unsaid: 'any',
    smallest: 'the smallest that holds it',
    forCard: 'Colors, order and customer, for the card and the proof',
    noFile: 'Choose one of the files first: its name in the table is a button.',
    changed: 'You changed the job. Find the setup again.',
  },
  languages: { en: 'English', es: 'Spanish' },
  setup: {
    title: 'What to load',
    toDo: 'Before you sew',
    cautions: [
      'Needles, moving frames and blades cut: keep your hands out of the needle area, and switch the machine off before you change a needle.',
      'Trace the outline with the needle up before you start: a needle that hits the hoop shatters.',
      "The machine's manual, local codes and the safety rules of your shop come first.",
    ],
  },
  out: {
    title: 'What to hand out',
    relaid: 'New stitch file',
    relaidUse: {
      asked: 'The setup above asks for it: another underlay under the wide columns. Make it before the card.',
      offered:
        'A light fill under wide columns instead of their zigzag. Written only where it changes something.',
      needless: 'The setup above sews the file as it is: no new file is needed.',
    },
    make: 'Make the new file',
    card: "Operator's card",
    cardUse: ({ file }: { file: string }, _: Voice): string =>
      `One printed page for the machine, made for ${file}: true size, layers, needle, hoop, colors, cautions.`,
    cardFirst: 'Find the setup first (above): the card says what to load.',
    makeCard: 'Make the card',
    reply: 'Letter to the digitizer',
    replyUse: 'What to fix, where, and how it should be. Copy it into a mail, or send the page.',
    writeReply: 'Write the letter',
    makeReply: 'Make the page',
    copy: 'Copy the letter',
    copied: 'Copied. Paste it into a mail.',
    notCopied: 'The browser did not copy it. It is marked now: copy it by the keyboard.',
    proof: 'Proof for the customer',
    proofUse: {
      plain:
        'The threads in their colors at true size. Find the setup first to see predicted wrinkles as well.',
      relief:
        'The threads in their colors, with the predicted wrinkles: as it is now, and with the setup above.',
    },
    showProof: 'Show the proof',
    makeProof: 'Make the page to print',
    proofOf: ({ file }: { file: string }, _: Voice): string =>
      `Proof of ${file}: a prediction of how it comes out`,
    standIns: 'No thread colors were given, so these are stand-ins: say them above, under the colors.',
    report: 'Reports',
    reportUse: 'The file check and the setup as pages by themselves, to keep or to send.',
    makeCheck: 'Make the file check',
    makeAdvice: 'Make the setup page',
    ready: ({ file }: { file: string }, _: Voice): string => `${file} is ready: it is among your downloads.`,
    again: ({ file }: { file: string }, _: Voice): string => `Download ${file} again`,
    noFile: 'No file was needed: nothing changed.',
  },
  larger: {
    title: 'Sewing again over picked-out stitches?',
    use: 'Each old needle hole is looked at: does the new stitching, made a little larger, hide it?',
    go: 'Make it larger',
    find: 'Take the smallest growth that hides every hole',
    way,
    shows: 'Some old holes will show. The new file is here all the same; see below what hides more.',
    map: ({ file }: { file: string }, _: Voice): string =>
      `The old needle holes of ${file} over the new stitches`,
  },
  order: {
    title: 'The whole order',
    use: ({ files, table }: { files: number; table: string | null }, say: Voice): string =>
      table === null
        ? `All ${say.count(files)} files on the garment above, as many pieces of each as it says: one setup, the cards, what to take from the shelf, the price.`
        : `The lines of ${table}: one setup a fabric, the cards, what to take from the shelf, the price. The garment above counts for lines without one.`,
    go: 'Do the whole order',
    files: 'Files of the order',
  },
  work: {
    title: 'At work',
    stop: 'Stop',
    stopped: 'Stopped. Whatever was done before stays.',
    checking: ({ file }: { file: string }, _: Voice): string => `Checking ${file}`,
    setup: ({ file }: { file: string }, _: Voice): string => `Finding the setup for ${file}: some seconds`,
    making: ({ file }: { file: string }, _: Voice): string => `Making ${file}`,
    holes: ({ file }: { file: string }, _: Voice): string => `Looking at every old needle hole of ${file}`,
    order: ({ files }: { files: number }, say: Voice): string =>
      `Working on ${say.counted(files, 'file')}: a minute or more`,
    letter: ({ file }: { file: string }, _: Voice): string => `Writing the letter about ${file}`,
    done: 'Done.',
    failed: ({ why }: { why: string }, _: Voice): string => `Not done: ${why}`,
  },
  field,
  hint,
  foot: "Nothing here replaces a sew-out on the same fabric, the machine's manual, local codes or licensed practice. Children's sleepwear falls under local rules of flammability.",
};
