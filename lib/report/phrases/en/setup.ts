/** What is set up for a job and minded in it: what `advise` and the operator's card share. */
import type { Accepted } from '../../../advice/accepted.js';
import type { DesignChange, HoopingParams } from '../../../advice/reason.js';
import { GSM_PER_OZ_YD2 } from '../../../core/units.js';
import { type FindingCode, isFileCode } from '../../../vetting/finding.js';
import type { Voice } from '../voice.js';
import { findings } from './findings.js';
import { traceInHoop } from './hoop-room.js';
import { GRADES, gradeStep, risk } from './risk.js';
import { laid } from './underlay.js';

/** A catalog of phrases for codes with parameters; a plain string where there are none. */
export type Worded<P> = {
  readonly [C in keyof P]: keyof P[C] extends never ? string : (params: Readonly<P[C]>, say: Voice) => string;
};

const hooping: Worded<HoopingParams> = {
  'on-cap-frame': 'Set the cap tight on its frame, the backing under it from edge to edge.',
  'as-it-lies': 'Hoop the fabric as it lies on the table: flat, with no stretch in any direction.',
  'flat-and-firm': 'Hoop the fabric flat and firm, straight with its grain.',
  straight: 'Hoop the fabric flat, straight with its grain.',
  'smooth-pile':
    'Smooth the pile one way and hoop just firm enough to hold: pile that a hoop crushes stays crushed.',
  'turn-backing': 'Turn the backing against the garment as the setup says before you hoop it.',
  'turn-others': ({ sheets }) =>
    `Lay the first sheet straight with the garment and turn ${sheets === 2 ? 'the next one as the setup says: the turn makes the two' : 'the others as the setup says: the turn makes them'} hold in every direction.`,
  'hoop-together': 'Hoop all sheets together with the fabric, none loose underneath.',
  'tear-backing': 'Tear the backing off along the stitching; hold the stitches with your thumb.',
  'tear-film-behind': 'Tear off the film that sticks out behind; what is left under the stitches rinses out.',
  'pick-from-back': 'Pick stitches out from the back: the second sheet protects the fabric.',
  'trim-backing': ({ leftMm }, say) =>
    `Trim the backing to about ${say.length(leftMm)} from the stitching, blades away from the fabric and from you.`,
  'topping-last': ({ removedBy }) =>
    removedBy === 'water'
      ? 'Lay the topping on last. Tear it off afterward, and take the rest off with a damp cloth or the first wash.'
      : 'Lay the topping on last. Take it off with heat as its maker says; try a hidden spot first.',
  'hoop-marks-for-good':
    'A hoop can mark this material for good: pad the hoop, or hoop the backing and hold the garment on it. Try it on a scrap first.',
  'hoop-marks': ({ washable }) =>
    washable
      ? 'Take hoop marks out with spray starch, not with water.'
      : 'Take hoop marks out with spray starch, not with water; try a hidden spot first.',
};

const changes: Readonly<Record<DesignChange, string>> = {
  width:
    'Make the satin columns narrower, split them, or fill the shapes instead: wide stitches pull hardest.',
  spacing: 'Open the spacing of the stitching a little: fewer threads side by side pull less.',
  underlay: 'Have the underlay made lighter: its own stitches pull too.',
  layers: 'Have stitching that lies under other stitching taken out: layers add up.',
  fabric: 'Sew it on firmer fabric, or have the design made smaller or lighter for this one.',
  laundering:
    'Tell the customer that it will show after washing, because thread and fabric shrink: wash by hand and dry flat.',
  hooping: 'Hoop the fabric without stretch.',
};

export const setup = {
  laid,
  hooping,
  changes,
  cautions: risk.cautions,
  /** A fabric, a sheet, a needle: the catalog's name, which may be the shop's own. */
  material: ({ name }: { name: string }, _: Voice): string => name,
  garmentLabel: 'garment',
  /** What a garment that was named is most likely made of. */
  garment: (
    { name, madeOf, takenAs }: { name: string; madeOf: string; takenAs: string | null },
    _: Voice,
  ): string => (takenAs === null ? `${name}: ${madeOf}` : `${name}, taken as ${takenAs}: ${madeOf}`),
  anotherGarment: (_: Record<never, never>, say: Voice): string =>
    `If yours is made of something else, ${say.typed('use --fabric ask', 'answer the four questions about its fabric')}.`,
  /** A woven sheet on the shelf: what the package says of it. */
  wovenSheet: ({ sheetName, massGPerM2 }: { sheetName: string; massGPerM2: number }, say: Voice): string =>
    `${sheetName}: a thin woven sheet that stays and is cut away, about ${say.plain(massGPerM2 / GSM_PER_OZ_YD2, 1)} oz/yd² (${say.count(massGPerM2)} g/m²), not a bonded one`,
  none: 'none',
  traceInHoop,
  /** `objects`: the first of each piece that is not. */
  capOrder: ({ objects }: { objects: readonly number[] }, say: Voice): string =>
    `Caps sew from the bill up and from the center seam out; this file does not, first at ${say.objects(objects.slice(0, 1), 1)}, and may push a fold into the front. Ask the digitizer for that order, or watch the first one closely.`,
  grade: ({ grade }: { grade: number }, _: Voice): string => GRADES[gradeStep(grade)].word,
  /** `8 washes`. */
  washes: ({ washes }: { washes: number }, say: Voice): string =>
    washes === 1 ? 'one wash' : say.counted(washes, 'wash', 'washes'),
  /** What the shop asks for: `grade 3.5, new and after 8 washes`. */
  standard: ({ grade, washedGrade, washes }: Accepted, say: Voice): string => {
    if (washes === 0) return `grade ${grade} as sewn`;
    const after = `after ${setup.washes({ washes }, say)}`;
    return grade === washedGrade
      ? `grade ${grade}, new and ${after}`
      : `grade ${grade} new and grade ${washedGrade} ${after}`;
  },
  /** What is wrong with the file itself. */
  failures: ({ codes }: { codes: readonly FindingCode[] }, say: Voice): string =>
    `DO NOT SEW the file as it is: ${namesFound({ codes }, say)}.`,
  warnings: ({ codes }: { codes: readonly FindingCode[] }, say: Voice): string =>
    `CHECK FIRST: ask for the file to be looked at before you hoop: ${namesFound({ codes }, say)}.`,
};

/** Names of what was found, each once. */
export function namesFound({ codes }: { codes: readonly FindingCode[] }, say: Voice): string {
  return say.list([...new Set(codes.map(nameOfFinding))]);
}

const nameOfFinding = (code: FindingCode): string => (isFileCode(code) ? findings.file : findings[code]).name;
