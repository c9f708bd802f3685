/** Writes 96 MiB of the letter b to the path that it is given, replacing what is there: a process to be interrupted. */
import { writeFileSafely } from '../../lib/io/write-file.js';

await writeFileSafely(process.argv[2], 'b'.repeat(96 * 1024 * 1024), { force: true });
