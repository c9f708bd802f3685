/** What an operator makes sure of, and what can hurt: usual cautions. All common practice, no source. */

/** Before the machine is started. */
export const checksBefore = (needle: string): readonly string[] => [
  'Right file, right way up: the screen shows what the picture shows.',
  'Threads in the order of the table, one on each needle that is called.',
  'Bobbin full enough for the piece and seated; its tension tried.',
  `Needle ${needle} fitted: straight, undamaged, home in its clamp. Machine off for this.`,
  'Layers as drawn, the backing held by the hoop all round.',
  'Hoop closed and locked, goods flat; hoop and garment clear of the arm, no sleeve or fold beneath.',
  'Outline traced with the frame, needles up, hands off: it touches nothing.',
  'First-off sewn on a scrap of the same goods and backing, looked at, and graded below.',
];

/** For whatever is sewn; what these goods call for comes on top. */
export const USUAL_CAUTIONS: readonly string[] = [
  'Hands, hair, cords and sleeves away from the needles and the moving frame.',
  'Switch the machine off before changing a needle or threading near one.',
  'A needle that hits a hoop shatters: trace after every change of hoop, file or position; wear eye protection.',
  'Picking out stitches: cut away from hands and body, and never toward the face of the goods.',
  'Presses and heat tools burn: use them as their makers say.',
  "Children's wear, sleepwear, flammability, small parts: local rules go first.",
  "The machine's manual, and whoever is trained and licensed for it, go before this card.",
];
