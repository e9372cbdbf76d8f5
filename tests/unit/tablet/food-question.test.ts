import { expect, it } from 'vitest';
import { foodQuestion, foodTyped } from '@/lib/core/tablet';
import { celsiusToKelvin, fahrenheitToKelvin } from '@/lib/core/measures';

it.each([
  [41.1, '°F'],
  [47, '°F'],
  [131, '°F'],
  [5.1, '°C'],
  [55, '°C'],
])('asks nothing about food at %s %s', (n, unit) =>
  expect(foodQuestion(unit === '°C' ? celsiusToKelvin(n) : fahrenheitToKelvin(n))).toBeNull(),
);

it('asks about food that is not too warm, the limit itself among it', () => {
  expect(foodQuestion(fahrenheitToKelvin(41))).toBe('41 °F (5 °C) is not above 41 °F (5 °C): is the number right?');
  expect(foodQuestion(celsiusToKelvin(5))).toMatch(/not above/);
  expect(foodQuestion(fahrenheitToKelvin(4.7))).toMatch(/^5 °F \(-15 °C\) is not above/);
});

it('asks about food hotter than a box without power makes it', () => {
  expect(foodQuestion(fahrenheitToKelvin(147))).toBe(
    '147 °F (64 °C) is hotter than food gets in a box that stands still: is the point in the right place?',
  );
  expect(foodQuestion(celsiusToKelvin(55.1))).toMatch(/point in the right place/);
});

it('reads what was typed in the technician’s own unit: what the office would refuse is not asked about', () => {
  const own = { temperatureUnit: 'F', pressureUnit: 'psig' } as const;
  expect(foodTyped('', own)).toEqual({ boxK: null, outside: false, question: null });
  expect(foodTyped('47', own)).toEqual({ boxK: fahrenheitToKelvin(47), outside: false, question: null });
  expect(foodTyped('40', own).question).toMatch(/not above/);
  expect(foodTyped('4000', own)).toMatchObject({ outside: true, question: null });
});
