import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { processIo } from '../../cli/process-io.js';
import { actAs, systemOf } from '../../lib/io/system.js';

/** Stands for the signals that would end the test. */
const SIGNAL = 'SIGUSR2';
let giveBack: () => void;

beforeEach(() => {
  giveBack = actAs({ ...systemOf('linux'), stopSignals: [SIGNAL as 'SIGINT'] });
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
  giveBack();
  expect(process.listenerCount(SIGNAL)).toBe(0);
});

describe('a signal that asks to stop', () => {
  it('is told once, though a program in between passes it on, and ends the process when it comes again', () => {
    let asked = 0;
    const letGo = processIo().onStop!(() => asked++);
    process.emit(SIGNAL);
    process.emit(SIGNAL);
    expect(asked).toBe(1);
    // Nobody listens: what the system does with the next one is to end the process.
    vi.advanceTimersByTime(1000);
    expect(process.listenerCount(SIGNAL)).toBe(0);
    letGo();
  });

  it('is not listened to any more when what was begun is done', () => {
    const letGo = processIo().onStop!(() => {});
    expect(process.listenerCount(SIGNAL)).toBe(1);
    letGo();
    expect([process.listenerCount(SIGNAL), vi.getTimerCount()]).toEqual([0, 0]);
  });

  it('does not end what has stopped in order when it is passed on only then', () => {
    let asked = 0;
    const letGo = processIo().onStop!(() => asked++);
    process.emit(SIGNAL);
    letGo();
    vi.advanceTimersByTime(400);
    // The system would end a process in which nobody listens.
    expect([asked, process.listenerCount(SIGNAL)]).toEqual([1, 1]);
    process.emit(SIGNAL);
    expect(asked).toBe(1);
    // If something else keeps the process, the person has the last word.
    vi.advanceTimersByTime(200);
    expect(process.listenerCount(SIGNAL)).toBe(0);
  });
});
