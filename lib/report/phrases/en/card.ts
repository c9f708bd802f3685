/** The operator's card. Checks and cautions are common practice, no source. */
import type { LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { Voice } from '../voice.js';
import { setup } from './setup.js';

/** Runs of objects that are named; the rest are counted. */
const MOST_RUNS = 40;

/** What is wrong before anything is sewn, in a frame at the top. */
const alerts = {
  notWhole: ({ drawn, left }: { drawn: number; left: number }, say: Voice): string =>
    `THE PICTURE IS NOT WHOLE: it shows the first ${say.counted(drawn, 'stitch', 'stitches')}, and ${say.count(left)} more are not drawn.`,
  wrongHoop:
    'DO NOT SEW IN THIS HOOP: the design is larger than the field of the hoop named here, and the needle would hit the frame.',
  notGoodEnough: (
    { standard, changes }: { standard: string; changes: readonly string[] },
    _: Voice,
  ): string =>
    [`CHECK FIRST: no backing fully meets your standard (${standard}); this comes closest.`, ...changes].join(
      ' ',
    ),
  mayMiss: ({ standard }: { standard: string }, _: Voice): string =>
    `CHECK FIRST: it may show a little more than your standard (${standard}). Sew a test.`,
  againstRule: 'CHECK FIRST: the trade would not load this backing here.',
  changedFile: ({ to, objects }: { to: LaidUnderlay; objects: readonly number[] }, say: Voice): string =>
    `CHANGED FILE NEEDED: ${setup.laid[to]} under ${say.objects(objects, MOST_RUNS)} instead of any underlay in this file. Stitches and start points here are those of this file.`,
};

const TEST_ON_SCRAP =
  'First one sewn on a scrap of the same fabric and backing, looked at, and graded below.';

export const card = {
  pageTitle: ({ file }: { file: string }, _: Voice): string => `Card for ${file}`,
  skip: 'Skip to the content',
  title: ({ file, fabric }: { file: string; fabric: string }, _: Voice): string => `${file} on ${fabric}`,
  /** What the shop says of the job, in one line. */
  job: {
    order: ({ text }: { text: string }, _: Voice): string => `Order ${text}`,
    customer: ({ text }: { text: string }, _: Voice): string => `for ${text}`,
    quantity: ({ n }: { n: number }, say: Voice): string => say.counted(n, 'piece'),
    garmentColor: ({ text }: { text: string }, _: Voice): string => `garment ${text}`,
    due: ({ text }: { text: string }, _: Voice): string => `due ${text}`,
    remarks: ({ text }: { text: string }, _: Voice): string => `Remarks: ${text}`,
  },
  stitches: ({ n }: { n: number }, say: Voice): string => say.counted(n, 'stitch', 'stitches'),
  machineTime: ({ seconds }: { seconds: number }, say: Voice): string =>
    `about ${say.time(seconds)} of machine time`,
  threads: ({ topMm, bobbinMm }: { topMm: number; bobbinMm: number }, say: Voice): string =>
    `top thread ${say.thread(topMm)}, bobbin ${say.thread(bobbinMm)}`,
  trims: ({ n }: { n: number }, say: Voice): string => say.counted(n, 'trim'),
  cost: ({ total, currency }: { total: number; currency: string }, say: Voice): string =>
    `cost a piece before labor ${say.money(total, currency)}`,
  alerts,
  /** Of a card whose picture at true size is on further sheets. */
  moreSheets: ({ sheets }: { sheets: number }, _: Voice): string =>
    sheets === 2
      ? 'TWO SHEETS: the picture at true size is on the second.'
      : `${sheets} SHEETS: the picture at true size is on sheets 2 to ${sheets}, to be taped together.`,
  /** Heading of such a sheet. */
  sheet: ({ title, sheet, of }: { title: string; sheet: number; of: number }, _: Voice): string =>
    `${title}: sheet ${sheet} of ${of}`,
  turnSheet: 'Turn the sheet so that TOP is up.',
  /** What of the picture is on a sheet, where it is in parts. */
  parts: {
    left: 'Left half of the picture.',
    right: 'Right half of the picture.',
    upper: 'Upper half of the picture.',
    lower: 'Lower half of the picture.',
    'upper-left': 'Upper left quarter of the picture.',
    'upper-right': 'Upper right quarter of the picture.',
    'lower-left': 'Lower left quarter of the picture.',
    'lower-right': 'Lower right quarter of the picture.',
  },
  joining:
    'Lay the sheets over each other so that the solid lines meet and every ring lies on the ring with its letter. Then tape them.',
  /** Names of the picture, for those who do not see it. */
  pictureOf: ({ reduction }: { reduction: number }, _: Voice): string =>
    reduction === 1 ? 'The design at true size' : `The design at a scale of 1 to ${reduction}`,
  riskPictureOf: 'Map of the predicted wrinkles around the stitches',
  hoopPictureOf: ({ reduction }: { reduction: number }, _: Voice): string =>
    `The design in its hoop at a scale of 1 to ${reduction}`,
  top: 'TOP',
  grain: 'grain',
  scale: ({ reduction }: { reduction: number }, _: Voice): string =>
    reduction === 1 ? 'True size, if printed at 100 %:' : `NOT TRUE SIZE: drawn at 1:${reduction}.`,
  bars: ({ reduction }: { reduction: number }, _: Voice): string =>
    reduction === 1 ? 'the bars must measure what they say.' : 'The bars are true if printed at 100 %.',
  /** Where the origin of the file lies from the middle; lengths that a hand measures, null where it is none. */
  origin: ({ right, up }: { right: number | null; up: number | null }, say: Voice): string => {
    const away = [
      ...(right === null ? [] : [`${say.measured(Math.abs(right))} to the ${right < 0 ? 'left' : 'right'}`]),
      ...(up === null ? [] : [`${say.measured(Math.abs(up))} ${up < 0 ? 'down' : 'up'}`]),
    ];
    return away.length === 0
      ? "Cross: middle of the design, and the file's origin."
      : `Cross: middle of the design. Ring: the file's origin, ${away.join(' and ')} from there; center by the one your machine starts from.`;
  },
  fieldDashed: 'Dashed: field of the hoop, the design centered.',
  startsNumbered: 'Numbers: where each color starts.',
  hoopAt: ({ reduction }: { reduction: number }, _: Voice): string => `Hoop at 1:${reduction}`,
  hoopInset: ', its field dashed, the design centered',
  colors: {
    title: 'Colors',
    order: 'In sewing order',
    part: ({ first, last }: { first: number; last: number }, _: Voice): string =>
      `In sewing order, ${first} to ${last}`,
    number: 'no.',
    stitches: 'stitches',
    time: 'time',
    needle: 'needle',
    thread: 'thread color',
    unnamed: 'A stitch file holds no thread colors: write in needle and color.',
    share: ({ share }: { share: number }, say: Voice): string =>
      share < 0.005 ? 'under 1 %' : say.share(share),
    more: ({ left }: { left: number }, say: Voice): string =>
      `and ${say.count(left)} more: see the machine's own list.`,
    stop: ({ after, left }: { after: readonly number[]; left: number }, say: Voice): string =>
      `■ STOP after ${after.map((n) => say.count(n)).join(', ')}${left > 0 ? ` and ${say.count(left)} more` : ''}`,
  },
  risk: {
    title: 'Predicted wrinkles',
    asSewn: 'As sewn',
    washed: ({ washes }: { washes: number }, say: Voice): string => `After ${setup.washes({ washes }, say)}`,
    /** `slight, grade 3.5, wrinkles about 0.31 mm high`; `lowestMm` and less is none. */
    looks: (
      {
        when,
        grade,
        wrinkleMm,
        lowestMm,
      }: { when: string; grade: number; wrinkleMm: number; lowestMm: number },
      say: Voice,
    ): string =>
      `${when}: ${setup.grade({ grade }, say)}, grade ${grade}, ${
        wrinkleMm < lowestMm
          ? `hardly a wrinkle (under ${say.figure(lowestMm)} on average)`
          : `wrinkles about ${say.figure(wrinkleMm)} high`
      }.`,
    note: ({ washed }: { washed: boolean }, say: Voice): string =>
      `A prediction: sew a test. Heights in ${say.units === 'mm' ? 'mm' : 'inches'}${washed ? ', washed' : ''}:`,
    from: ({ mm }: { mm: number }, say: Voice): string => `${say.bare(mm)} and more`,
    between: ({ from, to }: { from: number; to: number }, say: Voice): string =>
      `${say.bare(from)} to ${say.bare(to)}`,
    lower: 'lower',
    flat: 'flat throughout',
  },
  layers: {
    title: 'Layers, needle side first',
    topping: 'topping',
    toppingLast: ({ name }: { name: string }, _: Voice): string => `${name}, laid on last`,
    garment: 'garment',
    backing: 'backing',
    backingNumber: ({ n }: { n: number }, _: Voice): string => `backing ${n}`,
    grain: ({ name, grain }: { name: string; grain: string }, _: Voice): string => `${name}, grain ${grain}`,
    upright: 'upright',
    level: 'level',
    leaning: ({ deg, to }: { deg: number; to: 'left' | 'right' }, say: Voice): string =>
      `leaning ${to}, ${say.plain(deg, 1)}° from level`,
    straight: 'straight (0°)',
    quarter: 'a quarter turn (90°)',
    turned: ({ deg, clockwise }: { deg: number; clockwise: boolean }, say: Voice): string =>
      `turned ${say.plain(deg, 1)}° ${clockwise ? 'clockwise' : 'counterclockwise'}`,
    note: ({ sheets }: { sheets: number }, say: Voice): string =>
      `${sheets === 0 ? 'No backing' : `${say.counted(sheets, 'sheet')} of backing`}. Hatching runs along a sheet; turns are as seen from the front.`,
  },
  setup: {
    title: 'Setup',
    needle: 'needle',
    speed: 'speed',
    speedAtMost: ({ speedSpm }: { speedSpm: number }, say: Voice): string =>
      `${say.count(speedSpm)} stitches a minute at most`,
    topping: 'topping',
    thread: 'thread',
    hoop: 'hoop',
    noHoop:
      'NO HOOP IN THE LIST HOLDS THIS DESIGN: use a larger one of yours, or have the design made smaller or split for two hoopings',
    field: (
      { name, round, widthMm, heightMm }: { name: string; round: boolean; widthMm: number; heightMm: number },
      say: Voice,
    ): string => {
      const field = round
        ? `${say.measured(widthMm)} across`
        : `${say.measured(widthMm)} by ${say.measured(heightMm)}`;
      return `${name}; the needle reaches ${field}, or what the machine's manual says`;
    },
  },
  hoopingTitle: 'Hooping and finishing',
  checksTitle: 'Before starting',
  checks: {
    file: 'Right file, right way up: the screen shows what the picture shows.',
    threads: 'Threads in the order of the table, one on each needle that is called.',
    bobbin: 'Bobbin full enough for the piece and seated; its tension tried.',
    needle: ({ name }: { name: string }, _: Voice): string =>
      `Needle ${name} in: straight, undamaged, all the way up in its clamp. Machine off for this.`,
    layers: {
      garment: 'Layers as drawn, the hoop holding the backing all around.',
      cap: 'Layers as drawn, the backing under the whole front, held by the frame.',
      flat: 'Layers as drawn, the hoop holding the backing all around.',
    },
    hoop: {
      garment:
        'Hoop closed and locked, fabric flat; hoop and garment clear of the arm, no sleeve or fold underneath.',
      cap: 'Cap locked on its frame, seam on the center line, bill and back strap clear of the arm, nothing folded under.',
      flat: 'Hoop closed and locked, fabric flat; hoop and piece clear of the arm, no strap, hem or fold underneath.',
    },
    trace: 'Outline traced with the frame, needles up, hands off: it touches nothing.',
    test: {
      garment: TEST_ON_SCRAP,
      cap: 'First one sewn on a spare cap over the same backing, looked at, and graded below.',
      flat: TEST_ON_SCRAP,
    },
  },
  cautionsTitle: 'Take care',
  /** For whatever is sewn; what the fabric calls for comes before them. */
  cautions: {
    hands: 'Keep hands, hair, cords and loose clothing away from the needles and the moving frame.',
    off: 'Switch the machine off before you change a needle or thread near one.',
    shatter:
      'A needle that hits a hoop shatters: trace after every change of hoop, file or position; wear eye protection.',
    picking: 'Picking out stitches: cut away from hands and body, and never toward the face of the fabric.',
    heat: 'Presses and heat tools burn: use them as their makers say.',
    children: {
      garment: "Children's wear, sleepwear, flammability, small parts: local rules come first.",
      cap: "Children's caps, small parts: local rules come first.",
      flat: 'For babies and small children: local rules on loose threads and small parts come first.',
    },
    manual: "The machine's manual, and whoever is trained and licensed for it, come before this card.",
  },
  record: {
    title: 'Sew-out',
    operator: 'Operator',
    date: 'Date',
    garment: 'Garment, batch',
    asSewn: 'Grade as sewn:',
    after: 'After',
    washes: 'washes:',
    remarks: 'Remarks',
    log: "Circle a grade: 5 smooth, 1 severe. For the shop's log of graded sew-outs, as it is planned here:",
  },
};
