import { expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { coveredUntil, likelyPlace, partsLike, piecesTaken } from '@/lib/core/parts';

it('a warranty ends on the same day of its month, or on the last where that month is shorter', () => {
  expect(coveredUntil(localDate('2026-11-27'), 12)).toBe('2027-11-27');
  expect(coveredUntil(localDate('2026-01-31'), 1)).toBe('2026-02-28');
  expect(coveredUntil(localDate('2027-11-30'), 3)).toBe('2028-02-29');
  expect(coveredUntil(localDate('2026-12-05'), 0)).toBe('2026-12-05');
});

it('a part is found by its number or by words of its name, the number first', () => {
  const list = [
    { number: 'GK-24', name: 'Door gasket, like FM-16' },
    { number: 'FM-16', name: 'Evaporator fan motor, 16 W' },
    { number: 'FM-9', name: 'Condenser fan motor, 9 W' },
  ];
  expect(partsLike(list, 'fm-16').map((p) => p.number)).toEqual(['FM-16', 'GK-24']);
  expect(partsLike(list, 'motor  FAN').map((p) => p.number)).toEqual(['FM-16', 'FM-9']);
  expect(partsLike(list, 'motor fan', 1)).toHaveLength(1);
  expect(partsLike(list, 'f')).toEqual([]);
  expect(partsLike(list, '  ')).toEqual([]);
});

it('what is in the van is taken first; of a piece that was begun, all of it', () => {
  expect([likelyPlace({ inVan: 1, inShop: 9 }), likelyPlace({ inVan: 0, inShop: 2 }), likelyPlace({ inVan: 0, inShop: 0 })]).toEqual([
    'van',
    'shop',
    'van',
  ]);
  expect([piecesTaken(2), piecesTaken(1.2), piecesTaken(0.1)]).toEqual([2, 2, 1]);
});
