import { fixed } from './quantities.js';

/** Text for an element or a quoted attribute of XML 1.0; characters that XML cannot hold become U+FFFD. */
export function xmlText(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0 §2.2 excludes these characters
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, '\ufffd')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
      .replace(/'/g, '&#39;')
  );
}

/** An element; attribute values and `text` are escaped here, `inner` is markup already. */
export function element(
  name: string,
  attributes: Record<string, string | number>,
  content: { text: string } | { inner: string } | null = null,
): string {
  let tag = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    tag += ` ${key}="${typeof value === 'number' ? tidy(value) : xmlText(value)}"`;
  }
  if (content === null) return `${tag}/>`;
  return `${tag}>${'text' in content ? xmlText(content.text) : content.inner}</${name}>`;
}

/** A number as short as two digits after the point allow. */
export function tidy(value: number): string {
  return String(Number(fixed(value, 2)));
}
