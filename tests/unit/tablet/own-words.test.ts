import { expect, it } from 'vitest';
import { ownMass } from '@/app/(tablet)/round/_lib/own-words';
import { ownText, type Me } from '@/lib/core/tablet';

it.each([
  [0.15, 'oz', '5.3 oz'],
  [0.9, 'oz', '31.7 oz'],
  [9, 'oz', '19 lb 13.5 oz'],
  [0.15, 'g', '150 g'],
  [9, 'g', '9.000 kg'],
  // Rounded up to a whole pound it is one, not sixteen ounces.
  [1.3607, 'oz', '3 lb 0.0 oz'],
] as const)('%d kg is told as %s: %s', (kg, massUnit, expected) => {
  expect(ownMass(kg, { massUnit } as unknown as Me)).toBe(expected);
});

it.each([
  ['steadyMinutes', 20, '20 min'],
  ['steadyMinutes', 100, '100 min'],
  ['steadyMinutes', 0, '0 min'],
  ['harvestMinutes', 2.5, '2.5 min'],
] as const)('%s of %d is told as %s', (field, value, expected) => {
  expect(ownText(field, value, { temperatureUnit: 'F', pressureUnit: 'psig' })).toBe(expected);
});
