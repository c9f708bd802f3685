#!/usr/bin/env node
/**
 * Starts the packed program, which lies beside this file. Written in the oldest JavaScript, so that a Node that is too old for the
 * program can still say so.
 */
'use strict';
var fs = require('fs');
var os = require('os');
var path = require('path');

/** What `engines` says: libraries that the program is made of ask for no less. */
function isNewEnough(version) {
  var numbers = version.split('.').map(Number);
  var major = numbers[0];
  var minor = numbers[1];
  return major >= 23 || (major === 22 && minor >= 12) || (major === 20 && minor >= 19);
}

/**
 * Where Node may keep what it compiled, for the next start: reading and compiling the program anew takes as long as vetting a small
 * design. Node keeps what each version compiled apart, and takes nothing that another one made.
 */
function cacheFolder() {
  var env = process.env;
  try {
    if (env.XDG_CACHE_HOME && path.isAbsolute(env.XDG_CACHE_HOME)) return path.join(env.XDG_CACHE_HOME, 'lieflat');
    if (process.platform === 'win32') return env.LOCALAPPDATA && path.join(env.LOCALAPPDATA, 'lieflat', 'cache');
    var home = os.homedir();
    // A user without a home, as a service may be, gets none made.
    if (!fs.existsSync(home)) return undefined;
    return path.join(home, process.platform === 'darwin' ? 'Library/Caches' : '.cache', 'lieflat');
  } catch (_) {
    return undefined;
  }
}

/**
 * What tells this Node to make optimized code only of what has run for longer: one design is over before such code pays back its making,
 * which takes a third of the time of a run. A batch or a very large design still gets there, no slower. V8 names this differently in every
 * version and complains of names that it does not know, so it is told only where the name was tried; from 24 on nothing is gained.
 *
 * Nor is it to look for what can be let go of beside the work, in threads of its own: where every processor has a design to work on,
 * that takes from the work a third more than it does by itself.
 */
function flagsFor(version) {
  var flags = {
    20: '--interrupt-budget=1000000 --no-concurrent-marking',
    22: '--invocation-count-for-turbofan=30000 --invocation-count-for-osr=8000 --no-concurrent-marking',
  };
  return flags[version.split('.')[0]];
}

/** Loads the program; every thread does so for itself. */
function load() {
  var enable = require('module').enableCompileCache;
  var folder = enable && cacheFolder();
  // Where it cannot be written Node goes on without it and says nothing.
  if (folder) enable(folder);
  return require('./program.js');
}

function start() {
  if (!isNewEnough(process.versions.node)) {
    console.error(
      'lieflat: Node.js ' + process.versions.node + ' is too old to run it; install Node.js 20.19 or later, or 22.12 or later'
    );
    process.exitCode = 2;
    return;
  }
  // What was compiled is taken only under the flags that it was made with, so this comes first.
  var flags = flagsFor(process.versions.node);
  if (flags) require('v8').setFlagsFromString(flags);
  var program = load();
  program.run(process.argv.slice(2), program.processIo(cacheFolder)).then(function (code) {
    process.exitCode = code;
    // All is written: ended at once, as Node takes a while to put its things in order.
    if (process.stdout.writableLength + process.stderr.writableLength === 0) process.exit();
  });
}

if (require.main === module) start();

module.exports = { isNewEnough: isNewEnough, flagsFor: flagsFor, cacheFolder: cacheFolder, load: load };
