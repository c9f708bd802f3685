/** Files that come to the page: dropped anywhere on it, alone or in folders, or chosen. */

export interface Arrived {
  /** With the folders below the one that was dropped. */
  readonly name: string;
  readonly file: File;
}

/** What is looked for in a folder: whatever else lies there is passed over. */
const WANTED = /\.(dst|csv|json)$/i;

export function listenForDrops(over: (isOver: boolean) => void, take: (files: Promise<Arrived[]>) => void) {
  addEventListener('dragover', (event) => {
    event.preventDefault();
    over(true);
  });
  addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) over(false);
  });
  addEventListener('drop', (event) => {
    event.preventDefault();
    over(false);
    if (event.dataTransfer) take(dropped(event.dataTransfer));
  });
}

/** Entries are to be asked for before anything is waited for: they are gone afterwards. */
async function dropped({ items, files }: DataTransfer): Promise<Arrived[]> {
  const entries = [...items].flatMap((item) => (item.kind === 'file' ? (item.webkitGetAsEntry() ?? []) : []));
  if (entries.length === 0) return [...files].map((file) => ({ name: file.name, file }));
  const found = await Promise.all(
    entries.map((entry) => (entry.isDirectory ? within(entry as FileSystemDirectoryEntry) : single(entry))),
  );
  return found.flat();
}

const single = (entry: FileSystemEntry): Promise<Arrived[]> =>
  new Promise((done, fail) => {
    const take = (file: File) => done([{ name: entry.fullPath.replace(/^\//, ''), file }]);
    (entry as FileSystemFileEntry).file(take, fail);
  });

async function within(folder: FileSystemDirectoryEntry): Promise<Arrived[]> {
  const reader = folder.createReader();
  const entries: FileSystemEntry[] = [];
  for (;;) {
    // A reader gives a hundred or so at a time, and none when it is through.
    const more = await new Promise<FileSystemEntry[]>((done, fail) => reader.readEntries(done, fail));
    if (more.length === 0) break;
    entries.push(...more);
  }
  const found: Arrived[] = [];
  for (const entry of entries) {
    if (entry.isDirectory) found.push(...(await within(entry as FileSystemDirectoryEntry)));
    else if (WANTED.test(entry.name)) found.push(...(await single(entry)));
  }
  return found;
}

/** Files of a field; of a folder only what is looked for. */
export const chosenIn = ({ files }: HTMLInputElement): Arrived[] =>
  [...(files ?? [])]
    .map((file) => ({ name: file.webkitRelativePath || file.name, file }))
    .filter(({ name, file }) => file.webkitRelativePath === '' || WANTED.test(name));
