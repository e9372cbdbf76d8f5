import { expect, it } from 'vitest';
import { energyPriceWords } from '@/lib/core/equipment/energy-price-words';

const SHOP = { energyPricePerKwh: 0.16, currency: 'USD' };

it.each([
  [0.2, SHOP, '0.2 USD per kWh'],
  [0, SHOP, '0 USD per kWh'],
  [null, SHOP, '0.16 USD per kWh, the shop’s'],
  [null, { ...SHOP, energyPricePerKwh: null }, 'Not on file; no cost is shown.'],
  [0.2, null, '0.2 per kWh'],
  [null, null, 'Not on file; no cost is shown.'],
])('a kitchen at %j in a shop of %j: %s', (own, shop, expected) => {
  expect(energyPriceWords(own, shop)).toBe(expected);
});
