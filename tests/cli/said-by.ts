import type { ChildProcess } from 'node:child_process';

/** What a process with both outputs piped says until it ends, and its exit code; null where a signal ended it. */
export function saidBy(child: ChildProcess): Promise<{ code: number | null; out: string; err: string }> {
  return new Promise((resolve, reject) => {
    const [out, err]: Buffer[][] = [[], []];
    child.stdout!.on('data', (piece: Buffer) => out.push(piece));
    child.stderr!.on('data', (piece: Buffer) => err.push(piece));
    child.on('error', reject);
    child.on('close', (code) =>
      resolve({ code, out: Buffer.concat(out).toString(), err: Buffer.concat(err).toString() }),
    );
  });
}
