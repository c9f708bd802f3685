/** What a profile may say of the names that a shop uses: garments, colors of thread, the threads of its designs, its paper. */
import { FABRIC_QUESTIONS, type FabricQuestion } from '../materials/fabric-questions.js';
import type { LikeFabric } from '../materials/like-fabric.js';
import { PAPER_NAMES, USUAL_PAPER } from '../report/card/paper.js';
import type { settingMakers, Zod } from './setting.js';

/** Keys of the profile, to stand among the others. */
export function ownNames(z: Zod, told: ReturnType<typeof settingMakers>['told']) {
  const named = z.string().regex(/[a-z0-9]/i, 'a name holds a letter or a digit');
  const answer = <Q extends FabricQuestion>(question: Q, words: string) =>
    told(z.enum(FABRIC_QUESTIONS[question]), words).optional();
  const likeFabric = {
    like: told(z.string().min(1), 'a fabric of lieflat catalog fabrics, or a garment that leads to one'),
    stretch: answer('stretch', 'how far it stretches when it is pulled'),
    body: answer('body', 'how thick it is'),
    surface: answer('surface', 'what its surface is like'),
    care: answer('care', 'whether it may get wet'),
  } satisfies Record<keyof LikeFabric, unknown>;
  return {
    garments: told(
      z.record(named, z.strictObject(likeFabric)),
      "The shop's own names of garments: each is like a fabric, but for the answers that are given",
    ).optional(),
    threadColors: told(
      z.record(named, z.string()),
      "The shop's own names of thread colors, each with a color name of CSS or six digits, as #1f2a44",
    ).optional(),
    designs: told(
      z.record(
        z.string().regex(/^[0-9a-f]{64}$/, 'a design is named by the 64 digits of its SHA-256'),
        z.strictObject({
          file: told(z.string(), 'what its file is called').optional(),
          threads: told(z.string(), 'its thread colors in sewing order, as "navy, #c8102e, white"'),
        }),
      ),
      'What is kept of designs, by the content of their files; --keep-threads writes it',
    ).optional(),
    paper: told(z.enum(PAPER_NAMES), 'the paper that cards and replies are printed on', {
      builtIn: USUAL_PAPER,
    }).optional(),
  };
}
