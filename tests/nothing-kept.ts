/**
 * Programs that are started from here keep no answers, and find none: a test of how an answer is worked out would be one of how it is read, and would
 * hang on what ran before. Where the answers would lie there is a file.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const cache = join(tmpdir(), 'lieflat-no-answers');
mkdirSync(join(cache, 'lieflat'), { recursive: true });
writeFileSync(join(cache, 'lieflat/answers'), '');
process.env.XDG_CACHE_HOME = cache;
