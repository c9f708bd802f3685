/** Words that nobody at the machine says; everything that people read is held against them. */
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

/** Names that programs go by: keys of JSON, what a row of a comparison is of, kinds of the stitch table, columns of tables, files. */
const FIXED =
  /"\w+"(?=\s*:)|\b[\w-]+\.ts\b|"centre[XY]"|\bcolourChanges(?:Before|After)?\b|\bdesign_colour_changes\b|`colour`|"colour"|\bstitch, jump, trim, colour\b/g;

/** Programs of pages, which nobody reads. */
const SCRIPTS = /<script>.*?<\/script>/gs;

/** The forbidden words of a text, each with the words around it. */
export function forbiddenIn(text: string): { pattern: string; around: string }[] {
  const read = text.replace(SCRIPTS, '').replace(FIXED, '');
  return FORBIDDEN.flatMap((pattern) =>
    [...read.matchAll(new RegExp(pattern.source, 'gi'))].map((match) => ({
      pattern: pattern.source,
      around: read
        .slice(Math.max(0, match.index - 30), match.index + match[0].length + 30)
        .replace(/\s+/g, ' '),
    })),
  );
}

/**
 * Holds everything that a run says to a person against the list: an error that shows each word with its place.
 *
 * @param given what the person typed: a word of theirs may be said back
 */
export function holdWords(text: string, where: string, given: readonly string[] = []): void {
  const typed = given.join('\n');
  const found = forbiddenIn(text).filter(({ pattern }) => !new RegExp(pattern, 'i').test(typed));
  if (found.length === 0) return;
  const [{ pattern, around }] = found;
  throw new Error(
    `${where} says a word of the list, ${found.length} times; first /${pattern}/ in "${around}"`,
  );
}
