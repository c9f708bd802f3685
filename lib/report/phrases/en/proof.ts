/** The proof that a customer is shown. */
import type { Voice } from '../voice.js';

export const proof = {
  title: ({ name }: { name: string }, _: Voice): string => `Proof: ${name}`,
  size: (
    { widthMm, heightMm, stitches }: { widthMm: number; heightMm: number; stitches: number },
    say: Voice,
  ): string => `${say.size(widthMm, heightMm)}, ${say.counted(stitches, 'stitch', 'stitches')}`,
  /** Thread by color block, as the machine calls them. */
  threads: ({ names }: { names: readonly string[] }, _: Voice): string =>
    `Thread: ${names.map((name, i) => `${i + 1} ${name}`).join(', ')}`,
  garment: ({ name }: { name: string }, _: Voice): string => `Garment: ${name}`,
  standIns: 'Colors are stand-ins: a stitch file holds none.',
  someStandIns: ({ from }: { from: number }, _: Voice): string =>
    `Colors from number ${from} on are stand-ins: fewer were given than the file has.`,
  asItIs: ({ fabric, backing }: { fabric: string; backing: string }, _: Voice): string =>
    `As it is: ${fabric}, ${backing}`,
  advised: ({ backing, underlay }: { backing: string; underlay: boolean }, _: Voice): string =>
    `With our setup: ${backing}${underlay ? ', lighter underlay' : ''}`,
  wrinkles: (
    { wrinkleMm, grade, washes }: { wrinkleMm: number; grade: number; washes: number },
    say: Voice,
  ): string => {
    const when = washes === 0 ? 'New' : `After ${say.counted(washes, 'wash', 'washes')}`;
    return wrinkleMm < 0.005
      ? `${when}: no wrinkles predicted (grade ${grade} of 5)`
      : `${when}: wrinkles about ${say.figure(wrinkleMm)} high (grade ${grade} of 5)`;
  },
  prediction: 'A prediction, with light from the left. Sew a test on the same fabric.',
  trueSize: 'True size if printed at 100%: the bar must measure what it says.',
  /** Of the threads that print as light as the garment: which, by the machine's number, and the name where one was given. */
  low: ({ threads }: { threads: readonly { number: number; name: string | null }[] }, say: Voice): string =>
    `Nearly alike in gray print: the garment and thread ${say.list(threads.map(({ number, name }) => (name === null ? `${number}` : `${number} ${name}`)))}.`,
  bar: (_: object, say: Voice): string => (say.units === 'mm' ? '50 mm' : '2 in'),
};
