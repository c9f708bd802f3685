import { dirname, relative } from 'node:path';
import { PROFILE_NAME, toJson } from '../../lib/index.js';
import { findUpward } from '../../lib/io/index.js';
import { profileJsonSchema, profileReport, starterProfile } from '../../lib/profile/index.js';
import { profileToText } from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT, type Handler } from '../command.js';
import type { ArgsOf } from '../command-options.js';
import { outputOf, textOptions, writeOut } from '../output.js';
import { profileInForce, targetFrom } from '../settings.js';

/** Where an installed package keeps what editors read. */
const INSTALLED_SCHEMA = 'node_modules/lieflat/.build/lib/profile.schema.json';

/** `lieflat profile`: which profile is in force and what it changes; writes one to start from, or its schema. */
export const profile: Handler<ArgsOf<'profile'>> = async (args, io) => {
  if (args.init && args.schema) throw badArgument('--init and --schema write two files', 'give one of them');
  if (args.init) {
    const out = args.out ?? PROFILE_NAME;
    const folder = dirname(targetFrom(io, out).path);
    const installed = await findUpward(INSTALLED_SCHEMA, folder);
    const text = await starterProfile(
      installed === null ? undefined : asReference(relative(folder, installed)),
    );
    await writeOut(out, text, args.force, io);
    return EXIT.clean;
  }
  const output = outputOf({ ...args, units: 'mm' }, io);
  if (args.schema) await output.write(toJson(await profileJsonSchema()));
  else {
    const { path, shop } = await profileInForce(args, io);
    const report = await profileReport(path, shop.figures);
    await output.write(
      args.format === 'json'
        ? toJson(report)
        : profileToText(report, await textOptions({ ...args, units: 'mm' }, io), PROFILE_NAME),
    );
  }
  await output.finish();
  return EXIT.clean;
};

/** A relative path as a reference of JSON Schema has it. */
function asReference(path: string): string {
  const slashed = path.replaceAll('\\', '/');
  return slashed.startsWith('..') ? slashed : `./${slashed}`;
}
