/** Words that nobody at the machine says; a list to hold everything against that people read. */
export const FORBIDDEN: readonly RegExp[] = [
  /\bgoods\b/i,
  /\bforesee\w*|\bforesaw\b/i,
  /\bforetold\b/i,
  /\bdearer\b/i,
  /\bin sight\b/i,
  /\bif not said\b/i,
  /\bthe upper one\b/i,
  /\bnobody said\b/i,
  /\bwhat is not known\b/i,
  /\bcolour\w*/i,
  /\bcentre\w*|\bcentring\b/i,
  /\bgrey(?:s|er|ish|ed)?\b/i,
];

/** Names that outside checks rely on: keys of JSON, kinds of the stitch table, columns of tables. */
const FIXED =
  /\bcolourChanges(?:Before|After)?\b|\bdesign_colour_changes\b|`colour`|"colour"|\bstitch, jump, trim, colour\b/g;

/** The forbidden words of a text, each with the words around it. */
export function forbiddenIn(text: string): { pattern: string; around: string }[] {
  const read = text.replace(FIXED, '');
  return FORBIDDEN.flatMap((pattern) =>
    [...read.matchAll(new RegExp(pattern.source, 'gi'))].map((match) => ({
      pattern: pattern.source,
      around: read
        .slice(Math.max(0, match.index - 30), match.index + match[0].length + 30)
        .replace(/\s+/g, ' '),
    })),
  );
}
