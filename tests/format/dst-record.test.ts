import { describe, expect, it } from 'vitest';
import {
  CONTROL_JUMP,
  CONTROL_MASK,
  CONTROL_PAUSE,
  CONTROL_UNKNOWN,
  Control,
  END_BYTE,
  HEADER_BYTES,
  isContradictory,
  isCredible,
  isEnd,
  MAX_MOVE,
  MOVE_0,
  MOVE_1,
  MOVE_2,
  moveX,
  moveY,
  packRecord,
  RECORD_BYTES,
  RESERVED_BITS,
  TRIM_JUMPS,
  UNITS_PER_MM,
} from '../../lib/format/dst-record.js';
import { raw, rawMove } from './raw-file.js';

const bytesOf = (record: number): number[] => [record >> 16, (record >> 8) & 0xff, record & 0xff];
const sumOf = ([b0, b1, b2]: readonly number[]): number => MOVE_0[b0] + MOVE_1[b1] + MOVE_2[b2];

describe('the three-byte record', () => {
  it('reads every bit by its weight (layout: common practice, no source)', () => {
    const weights: [byte: number, bit: number, dx: number, dy: number][] = [
      [0, 7, 0, 1],
      [0, 6, 0, -1],
      [0, 5, 0, 9],
      [0, 4, 0, -9],
      [0, 3, -9, 0],
      [0, 2, 9, 0],
      [0, 1, -1, 0],
      [0, 0, 1, 0],
      [1, 7, 0, 3],
      [1, 6, 0, -3],
      [1, 5, 0, 27],
      [1, 4, 0, -27],
      [1, 3, -27, 0],
      [1, 2, 27, 0],
      [1, 1, -3, 0],
      [1, 0, 3, 0],
      [2, 7, 0, 0],
      [2, 6, 0, 0],
      [2, 5, 0, 81],
      [2, 4, 0, -81],
      [2, 3, -81, 0],
      [2, 2, 81, 0],
      [2, 1, 0, 0],
      [2, 0, 0, 0],
    ];
    for (const [byte, bit, dx, dy] of weights) {
      const bytes = [0, 0, 0];
      bytes[byte] = 1 << bit;
      expect([moveX(sumOf(bytes)), moveY(sumOf(bytes))], `byte ${byte} bit ${bit}`).toEqual([dx, dy]);
    }
  });

  it('writes and reads all 243 × 243 moves, as the layout has them', () => {
    let wrong = 0;
    let moves = 0;
    for (let dx = -MAX_MOVE; dx <= MAX_MOVE; dx++) {
      for (let dy = -MAX_MOVE; dy <= MAX_MOVE; dy++) {
        const bytes = bytesOf(packRecord(dx, dy, Control.stitch));
        const expected = raw(dx, dy);
        if (bytes.some((byte, i) => byte !== expected[i])) wrong++;
        if (moveX(sumOf(bytes)) !== dx || moveY(sumOf(bytes)) !== dy) wrong++;
        moves++;
      }
    }
    expect(moves).toBe(59049);
    expect(wrong).toBe(0);
  });

  it('reads any three bytes as the bits say, contradictory ones too', () => {
    let wrong = 0;
    // Every pair of a first with a second byte, and every third byte with a spread of the others.
    for (let b0 = 0; b0 < 256; b0++) {
      for (let b1 = 0; b1 < 256; b1++) {
        const bytes = [b0, b1, (b0 * 7 + b1 * 13) & 0xff];
        const { dx, dy } = rawMove(bytes);
        if (moveX(sumOf(bytes)) !== dx || moveY(sumOf(bytes)) !== dy) wrong++;
      }
    }
    expect(wrong).toBe(0);
  });

  it('knows an end record by its third byte, and a contradiction in any byte', () => {
    expect(isEnd(0xf3)).toBe(true);
    expect([0x03, 0x83, 0xc3, 0x43, 0xe3, 0xd3, 0xff].filter(isEnd)).toEqual([]);
    expect(isContradictory(0b11, 0, 0x03)).toBe(true);
    expect(isContradictory(0, 0b1100_0000, 0x03)).toBe(true);
    expect(isContradictory(0, 0, 0x33)).toBe(true);
    expect(isContradictory(0, 0, 0x0f)).toBe(true);
    // Bits of different weights that lie side by side, or control and reserved bits, contradict nothing.
    for (const neighbours of [0b0000_0110, 0b0001_1000, 0b0110_0000]) {
      expect(isContradictory(neighbours, 0, 0x03)).toBe(false);
      expect(isContradictory(0, neighbours, 0x03)).toBe(false);
    }
    expect(isContradictory(0, 0, 0b0001_1000 | 0x03)).toBe(false);
    expect(isContradictory(0b0101_0101, 0b1010_1010, 0xc3 | 0x24)).toBe(false);
  });

  it('believes no record that no writer makes, though a tolerant reader reads it', () => {
    // An end record moves nowhere.
    expect([isCredible(0, 0, 0xf3), isCredible(1, 0, 0xf3), isCredible(0, 1, 0xf3)]).toEqual([
      true,
      false,
      false,
    ]);
    // Bit 6 of the third byte without bit 7 is a kind that the format does not define.
    expect([isCredible(0, 0, 0x43), isCredible(0b11, 0, 0x03)]).toEqual([false, false]);
    // The reserved bits are always set.
    expect([isCredible(0, 0, 0x02), isCredible(0, 0, 0x01), isCredible(0, 0, 0x03)]).toEqual([
      false,
      false,
      true,
    ]);
  });

  it('has its sizes and its control bits as the trade exchanges them (common practice, no source)', () => {
    // 0.1 mm a unit, records of three bytes after a header of 512, and three jumps in a row for a trim.
    expect([UNITS_PER_MM, RECORD_BYTES, HEADER_BYTES, TRIM_JUMPS]).toEqual([10, 3, 512, 3]);
    expect([MOVE_0, MOVE_1, MOVE_2].map((moves) => moves.length)).toEqual([256, 256, 256]);
    // Stitch, jump, pause: bits 7 and 6 of the third byte, over the two reserved ones.
    expect(Control).toEqual({ stitch: 0b0000_0011, jump: 0b1000_0011, pause: 0b1100_0011 });
    expect([CONTROL_MASK, CONTROL_JUMP, CONTROL_PAUSE, CONTROL_UNKNOWN]).toEqual([
      0b1100_0000, 0b1000_0000, 0b1100_0000, 0b0100_0000,
    ]);
    expect([RESERVED_BITS, END_BYTE]).toEqual([0b0000_0011, 0b1111_0011]);
    // What ends a design has both bits of 81 units up and down, which no move has, whatever its reserved bits.
    expect([0xf0, 0xf1, 0xf2, 0xf3].every(isEnd)).toBe(true);
  });

  it('finds no written record incredible, and most text', () => {
    expect(isCredible(0, 0, 0xf3)).toBe(true);
    for (const control of Object.values(Control)) {
      expect(isCredible(...(bytesOf(packRecord(-121, 77, control)) as [number, number, number]))).toBe(true);
    }
    const text = [...'lorem ipsum dolor sit amet, consectetur'].map((char) => char.charCodeAt(0));
    let credible = 0;
    for (let i = 0; i + 2 < text.length; i++) {
      if (isCredible(text[i], text[i + 1], text[i + 2])) credible++;
    }
    expect(credible).toBe(0);
  });
});
