/** The package, built, packed and installed in an empty project by one version of Node. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import type { NodeVersion } from './node-versions.js';

const ROOT = new URL('../..', import.meta.url).pathname;

export interface Project {
  builtBy: NodeVersion;
  folder: string;
  /** The program, to be run by a Node. */
  program: string;
  /** SHA-256 of each file of the package. */
  files: Map<string, string>;
}

/** @throws Error where npm cannot, or where `engines` of the package or of a library leaves that Node out */
export function installedBy(node: NodeVersion, folder: string): Project {
  const npm = (cwd: string, ...args: string[]): string =>
    execFileSync('npm', args, {
      cwd,
      encoding: 'utf8',
      env: { ...process.env, PATH: `${node.folder}${delimiter}${process.env.PATH}` },
      stdio: ['ignore', 'pipe', 'inherit'],
      shell: process.platform === 'win32',
    });
  mkdirSync(folder, { recursive: true });
  npm(ROOT, 'run', '--silent', 'build');
  const told = npm(ROOT, 'pack', '--ignore-scripts', '--json', '--silent', '--pack-destination', folder);
  const [{ filename }] = JSON.parse(told) as [{ filename: string }];
  writeFileSync(join(folder, 'package.json'), '{"private": true}');
  npm(
    folder,
    ...'install --engine-strict --prefer-offline --no-audit --no-fund --silent'.split(' '),
    join(folder, filename),
  );
  const home = join(folder, 'node_modules/lieflat');
  const { bin } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as {
    bin: { lieflat: string };
  };
  return { builtBy: node, folder, program: join(home, bin.lieflat), files: contentOf(home) };
}

/** The SHA-256 of each file in a folder and the folders within it. */
export function contentOf(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  const files = names.filter((name) => statSync(join(folder, name)).isFile());
  return new Map(
    files.map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(folder, name)))
        .digest('hex'),
    ]),
  );
}
