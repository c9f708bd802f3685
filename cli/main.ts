#!/usr/bin/env node
import { setFlagsFromString } from 'node:v8';
import { processIo } from './process-io.js';
import { run } from './run.js';

// One design is over before optimised code pays back its making, which takes half of the time: code is optimised
// only once it has run for longer. A batch or a very large design still gets there, as fast as before.
setFlagsFromString('--interrupt-budget=1000000');
process.exitCode = await run(process.argv.slice(2), processIo());
