import { expect, it } from 'vitest';
import { fromHere } from '@/app/_ui/map/from-here';
import { NOWHERE } from '@/app/_ui/map/around';

// One degree of longitude on the equator is 111.195 km on a sphere of the IUGG mean radius.
it('says how far a pin is from the shop and the nearest kitchen, and that no roads are counted', () => {
  const kitchens = [
    { id: '1', name: 'Far Fork', lat: 0, lng: 1 },
    { id: '2', name: 'Near Ladle', lat: 0, lng: 0.1 },
  ];
  expect(fromHere({ lat: 0, lng: 0 }, { ...NOWHERE, shop: { lat: 0, lng: 0.5 }, kitchens })).toBe(
    '56 km from the shop; 11 km from Near Ladle, the nearest kitchen on file. Straight lines, no roads counted.',
  );
  expect(fromHere({ lat: 0, lng: 0 }, { ...NOWHERE, kitchens, distance: 'mi' })).toMatch(/^6\.9 mi from Near Ladle/);
  expect(fromHere({ lat: 0, lng: 0 }, NOWHERE)).toBe('');
});
