import { expect, it } from 'vitest';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

it('names the customer before the kitchen, and only where it has another name', () => {
  expect(fullKitchenName({ name: 'Harbour line', customer: 'Osprey Inn' })).toBe('Osprey Inn, Harbour line');
  expect(fullKitchenName({ name: 'Osprey Inn', customer: 'Osprey Inn' })).toBe('Osprey Inn');
});
