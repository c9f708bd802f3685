/** Elements made in one expression: text stays text, whatever it holds. */

type ElementGiven = Readonly<Record<string, string | number | boolean | null | undefined>>;

/** `true` writes the name of an attribute alone; `false`, null and undefined leave it out. */
export function make<K extends keyof HTMLElementTagNameMap>(
  name: K,
  given: ElementGiven = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    element.setAttribute(key, value === true ? '' : String(value));
  }
  element.append(...children);
  return element;
}

/** A button that does something. */
export function button(text: string, press: () => void, given: ElementGiven = {}): HTMLButtonElement {
  const made = make('button', { type: 'button', ...given }, text);
  made.addEventListener('click', press);
  return made;
}

/** Where a line about trouble appears; a screen reader says it as it comes. */
export const troubleLine = (): HTMLParagraphElement => make('p', { class: 'trouble', role: 'alert' });

/** A part of the sheet under a heading; hidden until it has something to say. */
export function part(id: string, title: string): HTMLElement {
  const heading = make('h2', { id: `${id}-title`, tabindex: -1 }, title);
  return make('section', { id, 'aria-labelledby': `${id}-title`, hidden: true }, heading);
}
