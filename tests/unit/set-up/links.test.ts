import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

// Whoever guesses at links is held off at each door behind one: a page, a file or an action that takes a token counts who asks.
const doors = readdirSync('app', { recursive: true, encoding: 'utf8' })
  .filter((file) => file.includes('[token]') && /\/(page|route|actions)\.tsx?$/.test(file))
  .toSorted();
const BRAKES = /\b(throttle|throttled|openLink|openPage)\(/g;
const ACTIONS = /\bexport const \w+ = /g;

describe('doors that a link opens', () => {
  it('are found', () => expect(doors.length).toBeGreaterThan(20));
  it.each(doors)('%s counts who asks', (door) => {
    const text = readFileSync(path.join('app', door), 'utf8');
    const wanted = door.endsWith('actions.ts') ? (text.match(ACTIONS)?.length ?? 0) : 1;
    expect(text.match(BRAKES)?.length ?? 0).toBeGreaterThanOrEqual(Math.max(1, wanted));
  });
});
