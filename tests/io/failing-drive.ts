import { type Drive, NODE_DRIVE } from '../../lib/io/drive.js';

/** What the system says when an operation fails: the disk is full, the disk is broken, nobody may, the file is held by another. */
export const FAILURES = ['ENOSPC', 'EIO', 'EACCES', 'EPERM'] as const;
export type Failure = (typeof FAILURES)[number];

/** The computer's own disks, whose `nth` operation (from 1) fails once; all others do what they should. */
export function failingDrive(nth: number, code: Failure): { drive: Drive; failed: () => string | null } {
  let count = 0;
  let failed: string | null = null;
  const drive = new Proxy(NODE_DRIVE, {
    get:
      (real, name: keyof Drive) =>
      async (...args: never[]) => {
        const work = real[name] as (...args: never[]) => Promise<unknown>;
        if (++count !== nth) return work(...args);
        failed = name;
        const error = Object.assign(new Error(`${code}: ${name}`), { code, syscall: name, errno: -1 });
        // As disks do it: what fits is taken before it is full, and a file that fails to close is closed.
        if (name === 'write' && code === 'ENOSPC') {
          const [file, bytes] = args as unknown as [number, Uint8Array];
          await real.write(file, bytes.subarray(0, bytes.length >> 1));
        }
        if (name === 'close') await work(...args);
        throw error;
      },
  });
  return { drive, failed: () => failed };
}
