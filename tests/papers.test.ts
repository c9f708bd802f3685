import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../cli/commands.js';
import { forbiddenIn } from './forbidden-words.js';
import { deadLinks, FOR_DEVELOPERS, PAPERS, type Paper, paperAt, proseOf, ROOT } from './papers.js';

const README = paperAt('README.md');
const DEVELOPERS = paperAt('DEVELOPERS.md');
const ALL = [...PAPERS, ...FOR_DEVELOPERS];

/** Lines wider than a page of code. The two that are read first fold their tables, too; no line of a picture can be folded. */
const wideLines = ({ path, text }: Paper): string[] =>
  text
    .split('\n')
    .filter((line) => [...line].length > 120)
    .filter((line) => !line.startsWith('![') && (READ_FIRST.includes(path) || !line.startsWith('|')));
const READ_FIRST = ['README.md', 'DEVELOPERS.md'];

describe('a paper', () => {
  it.each(ALL)('$path has no line wider than 120', (paper) => {
    expect(wideLines(paper)).toEqual([]);
  });

  it.each([README, DEVELOPERS])('$path is read in one sitting', ({ text }) => {
    expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(250);
  });

  it.each(ALL)('$path leads to places that there are', (paper) => {
    expect(deadLinks(paper)).toEqual([]);
  });

  it('is reached from the README', () => {
    const reached = new Set(['README.md']);
    for (const path of reached)
      for (const [, target] of proseOf(paperAt(path)).matchAll(/\]\(([^)#]*README\.md)/g))
        reached.add(new URL(target, `file:///${path}`).pathname.slice(1));
    expect([...reached].sort()).toEqual(PAPERS.map(({ path }) => path).sort());
  });

  it.each([README, paperAt('cli/README.md')])('$path speaks as it is spoken at the machine', (paper) => {
    expect(forbiddenIn(proseOf(paper).replace(/`[^`\n]*`/g, ''))).toEqual([]);
  });
});

describe('the paper of developers', () => {
  it('says what changed in the version that there is', () => {
    const { version } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as { version: string };
    const [first] = DEVELOPERS.text
      .split('\nWhat changed, the newest first:\n')[1]
      .matchAll(/^- \*\*(\S+)\*\*/gm);
    expect(first[1]).toBe(version);
  });

  it('says why of every library', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as {
      dependencies: Record<string, string>;
      devDependencies: Record<string, string>;
    };
    const why = DEVELOPERS.text.split('\n## Libraries, and why\n')[1];
    const named = [...Object.keys(dependencies), ...Object.keys(devDependencies)];
    expect(named.filter((name) => !name.startsWith('@types/') && !why.includes(name))).toEqual([]);
  });

  it('names files that there are', () => {
    const named = ALL.flatMap(({ path, text }) =>
      [...text.matchAll(/`((?:lib|cli|tests|samples|\.config|\.ci)\/[\w./-]+)`/g)].map(([, name]) => ({
        path,
        name,
      })),
    );
    expect(named.length).toBeGreaterThan(80);
    expect(
      named.filter(({ name }) => !existsSync(`${ROOT}${name}`) && !existsSync(`${ROOT}${name}.ts`)),
    ).toEqual([]);
  });
});

describe('the README', () => {
  it('lists every command once, and no other', () => {
    const listed = [...README.text.matchAll(/^\| `lieflat ([a-z]+)[^|]*\|/gm)].map(([, name]) => name);
    expect(listed.sort()).toEqual(Object.keys(COMMANDS).sort());
  });

  it('defers to local codes where work can hurt someone', () => {
    const care = README.text.split('\n## Care\n')[1].split('\n## ')[0];
    for (const word of ['needle', 'hoop strike', 'blades', 'Heat', "children's", 'local codes'])
      expect(care).toContain(word);
  });
});

describe('the check itself', () => {
  const paper = (text: string): Paper => ({ path: 'cli/README.md', text });

  it('finds links that lead nowhere', () => {
    const text =
      '# A heading, or two\n[a](../README.md) [b](#a-heading-or-two) [c](nowhere.md) [d](#none) [e](../README.md#care) [f](../README.md#none)';
    expect(deadLinks(paper(text))).toEqual(['nowhere.md', '#none', '../README.md#none']);
    expect(deadLinks(paper('[a](../README.md)'), () => false)).toEqual(['../README.md']);
  });

  it('finds wide lines, but for tables beside the two papers that are read first', () => {
    const wide = '| '.padEnd(121, 'x');
    expect(wideLines({ path: 'README.md', text: `short\n${wide}` })).toEqual([wide]);
    expect(wideLines(paper(wide))).toEqual([]);
  });
});
