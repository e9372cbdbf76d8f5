import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

/** WCAG 2.2: relative luminance and contrast ratio of two sRGB colours (as defined there). */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const css = readFileSync(path.resolve('app/theme.css'), 'utf8');
const [light = {}, dark = {}] = [...css.matchAll(/:root \{([^}]*)\}/g)].map((block) =>
  Object.fromEntries([...(block[1] ?? '').matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]])),
) as Record<string, string>[];

const GROUNDS = ['paper', 'sheet', 'sunk'];
/** What is drawn, on what, and the least ratio: 1.4.11 for the edge of a thing to press, 1.4.3 for text. */
const LEAST: [string, string[], number][] = [
  ['edge', GROUNDS, 3],
  ['alarm', [...GROUNDS, 'alarm-wash'], 4.5],
  ['cold', [...GROUNDS, 'cold-wash'], 4.5],
  ['on-cold', ['cold'], 4.5],
  ['soft', [...GROUNDS, 'cold-wash'], 4.5],
  ['ink', [...GROUNDS, 'cold-wash', 'alarm-wash'], 7],
];

describe.each([
  ['light', light],
  ['dark', dark],
])('the %s theme', (_, theme) => {
  it.each(LEAST.flatMap(([drawn, grounds, least]) => grounds.map((ground) => [drawn, ground, least] as const)))(
    '%s is seen on %s: at least %d to 1',
    (drawn, ground, least) => expect(contrast(theme[drawn] ?? '', theme[ground] ?? '')).toBeGreaterThanOrEqual(least),
  );
});

it('reckons as the standard does: black on white is 21 to 1, mid grey #767676 the lightest that passes on white', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  expect(contrast('#767676', '#ffffff')).toBeGreaterThanOrEqual(4.5);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

const tabletFiles = readdirSync('app/(tablet)', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.tsx'))
  .map((name) => path.join('app/(tablet)', name));

it('a card of the tablet has the edge that is seen outdoors, not the fine line', () => {
  const faint = tabletFiles.flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/["'`][^"'`\n]*["'`]/g)]
      .map((m) => m[0])
      .filter((classes) => /\brounded/.test(classes) && /(?<!:)\bborder-line\b/.test(classes))
      .map((classes) => `${file}: ${classes}`),
  );
  expect(faint).toEqual([]);
});
