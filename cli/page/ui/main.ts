import { startEngine } from '../engine.js';

/** The program of the worker: the build puts it before this script. */
declare const WORKER_TEXT: string;

Object.assign(globalThis, { engine: startEngine(WORKER_TEXT) });
