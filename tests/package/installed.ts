/** The package as its users get it: packed, and laid into an empty project. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll } from 'vitest';
import { builtProgram, ROOT } from '../built.js';

export { ROOT };

export interface Packed {
  /** Of the tarball, bytes. */
  size: number;
  unpackedSize: number;
  files: string[];
}

/**
 * An empty project with the package in it, and beside it the libraries that the package says it needs, as they are installed here:
 * nothing is fetched.
 */
export function installed() {
  builtProgram();
  const project = mkdtempSync(join(tmpdir(), 'project-'));
  afterAll(() => rmSync(project, { recursive: true, force: true }));
  const told = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', project], {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [{ filename, size, unpackedSize, files }] = JSON.parse(told) as [
    { filename: string; size: number; unpackedSize: number; files: { path: string }[] },
  ];
  const home = join(project, 'node_modules/lieflat');
  mkdirSync(home, { recursive: true });
  execFileSync('tar', ['-xzf', join(project, filename), '-C', home, '--strip-components=1']);
  const { dependencies, bin } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as {
    dependencies: Record<string, string>;
    bin: { lieflat: string };
  };
  for (const name of Object.keys(dependencies)) {
    const at = join(project, 'node_modules', name);
    mkdirSync(dirname(at), { recursive: true });
    symlinkSync(join(ROOT, 'node_modules', name), at);
  }
  writeFileSync(join(project, 'package.json'), '{"type":"module"}');
  const packed: Packed = { size, unpackedSize, files: files.map(({ path }) => path) };
  return {
    packed,
    at: (name: string): string => join(project, name),
    /** Runs a program of Node in the project; gives what it prints. */
    node: (...args: string[]): string =>
      execFileSync(process.execPath, args, {
        cwd: project,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'pipe'],
      }),
    program: join(home, bin.lieflat),
  };
}
