/** In the place of what Node has everywhere, in the page. */
export const process = { cwd: (): string => '/' };

const encoder = new TextEncoder();
export const Buffer = {
  byteLength: (content: string | Uint8Array): number =>
    typeof content === 'string' ? encoder.encode(content).length : content.length,
};
