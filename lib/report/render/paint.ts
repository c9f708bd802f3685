/** How a word is set apart on a terminal. Colour only ever repeats what the words say already. */
export interface Paint {
  fail(text: string): string;
  warn(text: string): string;
  note(text: string): string;
  sound(text: string): string;
  strong(text: string): string;
}

const plain = (text: string): string => text;

/** No colour at all: for files, pipes and tests. */
export const NO_PAINT: Paint = {
  fail: plain,
  warn: plain,
  note: plain,
  sound: plain,
  strong: plain,
};
