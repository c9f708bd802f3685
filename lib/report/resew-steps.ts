/** What the person at the machine does, and what could hurt someone: common practice, no source. */

export const resewSteps = (): string[] => [
  'Sew the new file once on a scrap of the same goods and backing, and hold it over the old stitching: it must cover it all round.',
  'Take the old stitches out from the back: cut the bobbin thread, a few stitches at a time, and draw the top thread off the front.',
  'Look at the goods against the light. Where threads of the goods are cut or a knit has run, do not sew again before that is mended.',
  'Lay fresh backing behind, and hoop as the first time, without stretching the goods.',
  'Centre by the marks of the first time and start from the same origin; trace the outline with the needle up and compare with the old holes.',
  'Sew, and stop after the first object: if old holes show on one side all along, move the design that way before going on.',
];

export const RESEW_CAUTIONS: readonly string[] = [
  'A seam ripper or blade slips: cut away from your hand and from the goods, in good light, with the goods lying flat and off the machine.',
  'Count the bits: loose thread, blade tips and broken needles must not stay in the goods, least of all in what children wear.',
  'Keep hands clear while the machine traces and sews: a needle that hits the hoop shatters.',
  'Local rules and the makers of machine and tool go before this.',
];

export const RESEW_LIMIT =
  'This proves where old holes lie under new thread, hooped exactly; it does not mend goods that were cut or torn, and holes may work open in wear and washing.';
