/** The project's papers, for tests that hold what they show to what the program does. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';

export const ROOT = new URL('..', import.meta.url).pathname;

export interface Paper {
  /** From the project's root. */
  readonly path: string;
  readonly text: string;
}

const paper = (path: string): Paper => ({ path, text: readFileSync(join(ROOT, path), 'utf8') });

/** What ships with the package, and is read by those who use it: the README, the command line's, the library's and its stations'. */
export const PAPERS: readonly Paper[] = [
  'README.md',
  'cli/README.md',
  'lib/README.md',
  ...readdirSync(join(ROOT, 'lib'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => `lib/${name}/README.md`),
].map(paper);

/** For whoever changes the code: they stay in the folder of the sources. */
export const FOR_DEVELOPERS: readonly Paper[] = [
  'DEVELOPERS.md',
  'tests/README.md',
  'samples/queue/README.md',
].map(paper);

export function paperAt(path: string): Paper {
  const found = [...PAPERS, ...FOR_DEVELOPERS].find((one) => one.path === path);
  if (!found) throw new Error(`no paper ${path}`);
  return found;
}

/** A command line in a paper over what it prints, a line `…` of which leaves something out. */
export interface Shown {
  readonly path: string;
  readonly line: string;
  readonly text: string;
}

export const SHOWN: readonly Shown[] = PAPERS.flatMap(({ path, text: paper }) =>
  [...paper.matchAll(/((?:.+\n)+)\n```\n([^`]*)```/g)].flatMap(([, paragraph, text]) => {
    const line = [...paragraph.matchAll(/`npx (lieflat [^`]+)`/g)].at(-1)?.[1];
    return line === undefined ? [] : [{ path, line, text }];
  }),
);

/** A picture in a paper, from the project's root, over the command line that drew it. */
export interface Picture {
  readonly picture: string;
  readonly line: string;
}

const fromRoot = (path: string, target: string): string => relative(ROOT, join(ROOT, dirname(path), target));

/** Pictures that a paper shows, from the project's root. */
export const picturesIn = ({ path, text }: Paper): string[] =>
  [...text.matchAll(/!\[[^\]]*\]\(([^)]+)\)/g)].map(([, target]) => fromRoot(path, target));

export const PICTURES: readonly Picture[] = PAPERS.flatMap(({ path, text }) =>
  [...text.matchAll(/\]\(([^)]+\.svg)\)\n\nMade by `lieflat ([^`]+)`/g)].map(([, target, line]) => ({
    picture: fromRoot(path, target),
    line,
  })),
);

/** Code without its fences, in the language named. */
export const codeIn = ({ text }: Paper, language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\\n(.*?)^\`\`\``, 'gms'))].map(([, code]) => code);

/** Prose and headings: what is in fences, or set back by four, is neither. */
export const proseOf = ({ text }: Paper): string =>
  text.replace(/^( *)```.*?^\1```$/gms, '').replace(/^ {4}.*$/gm, '');

/** As a page of a repository makes the anchor of a heading. */
const anchorOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^\w\- ]/g, '')
    .replaceAll(' ', '-');

/** Links of a paper that lead nowhere: to no file, to no heading, or to a file outside of what is given. */
export function deadLinks(one: Paper, isThere = (path: string) => existsSync(join(ROOT, path))): string[] {
  const links = [...proseOf(one).matchAll(/\]\((?!https?:)([^)]+)\)/g)].map(([, target]) => target);
  return links.filter((link) => {
    const [target, anchor] = link.split('#');
    const path = target === '' ? one.path : fromRoot(one.path, target);
    if (!isThere(path)) return true;
    if (anchor === undefined) return false;
    const headings = [...proseOf(target === '' ? one : paperAt(path)).matchAll(/^#+ (.*)$/gm)];
    return !headings.some(([, heading]) => anchorOf(heading) === anchor);
  });
}
