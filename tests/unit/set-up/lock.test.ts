import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { lock } from '../../../scripts/support/lock.mjs';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-lock-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

it('is held until it is released', () => {
  const file = path.join(folder, 'held');
  const answer = lock(file);
  expect(answer.taken).toBe(true);
  expect(existsSync(file)).toBe(true);
  if (answer.taken) answer.release();
  expect(existsSync(file)).toBe(false);
});

it('names the living program that holds it', () => {
  const file = path.join(folder, 'alive');
  writeFileSync(file, JSON.stringify({ pid: process.ppid, port: 3000 }));
  expect(lock(file)).toEqual({ taken: false, owner: { pid: process.ppid, port: 3000 } });
});

it('is taken over from a program that died', () => {
  const file = path.join(folder, 'dead');
  const { pid } = spawnSync(process.execPath, ['-e', '']);
  writeFileSync(file, JSON.stringify({ pid }));
  expect(lock(file).taken).toBe(true);
});
