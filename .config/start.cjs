#!/usr/bin/env node
/** Starts the packed program, which lies beside this file with the code that was compiled in an earlier run. */
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

const PROGRAM = join(__dirname, 'program.js');
const COMPILED = join(__dirname, 'program.compiled');

/**
 * Loads the program. Reading and compiling it anew takes as long as vetting a small design, so compiled code is kept
 * from when it was packed; another version of Node does not take that code and compiles for itself.
 */
function load() {
  // One design is over before optimised code pays back its making, which takes almost half of the time: code is
  // optimised only once it has run for longer. A batch or a very large design still gets there, no slower. Compiled
  // code is taken only under the flags that it was made with, so this comes first.
  setFlagsFromString('--interrupt-budget=1000000');
  const source = readFileSync(PROGRAM, 'latin1');
  const script = new Script(`(function (exports, require, module, __filename) {${source}\n})`, {
    filename: PROGRAM,
    cachedData: compiled(),
  });
  const module = { exports: {} };
  script.runInThisContext()(module.exports, require, module, PROGRAM);
  return { program: module.exports, script };
}

function compiled() {
  try {
    return readFileSync(COMPILED);
  } catch {
    return undefined;
  }
}

if (require.main === module) {
  const { run, processIo } = load().program;
  run(process.argv.slice(2), processIo()).then((code) => {
    process.exitCode = code;
  });
}

module.exports = { COMPILED, load };
