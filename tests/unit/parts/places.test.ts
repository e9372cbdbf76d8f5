import { describe, expect, it } from 'vitest';
import { inOwnVan, inVans, likelyPlace, PART_PLACE_LABEL, partsLike, piecesTaken } from '@/lib/core/parts';

describe('where parts lie', () => {
  const lies = { inVan: 2, vans: [{ technicianId: 'tova', pieces: 3 }, { technicianId: 'june', pieces: 0 }] }; // prettier-ignore
  it('counts every van together, and for a technician the own one before one that nobody said whose it is', () => {
    expect(inVans(lies)).toBe(5);
    expect([inOwnVan(lies, 'tova'), inOwnVan(lies, 'june'), inOwnVan(lies, 'bastian')]).toEqual([3, 2, 2]);
    expect(PART_PLACE_LABEL).toEqual({ van: 'the van', shop: 'the shop' });
  });

  it('is taken from the van where there is one, and where there is none anywhere', () => {
    const at = (inVan: number, inShop: number) => likelyPlace({ inVan, inShop });
    expect([at(1, 5), at(0, 5), at(0, 0)]).toEqual(['van', 'shop', 'van']);
  });

  it('leaves the list in whole pieces', () => {
    expect([piecesTaken(1), piecesTaken(1.2), piecesTaken(0.1 + 0.2 + 0.7)]).toEqual([1, 2, 1]);
  });
});

describe('a part that is typed', () => {
  const PARTS = [
    { number: 'GK-24', name: 'Door gasket FM 24' },
    { number: 'FM-16', name: 'Evaporator  fan motor, 16 W' },
    { number: 'FM-9', name: 'Condenser fan motor, 9 W' },
    { number: 'DT-10', name: 'Drain pan tablets' },
    { number: 'CT-1', name: 'Cap tube' },
  ];
  const like = (typed: string, limit?: number) => partsLike(PARTS, typed, limit).map((p) => p.number);
  it('is found by every word of it, in any order and case, the number’s own beginning first', () => {
    expect(like('fm')).toEqual(['FM-16', 'FM-9', 'GK-24']);
    expect(like('MOTOR  fan')).toEqual(['FM-16', 'FM-9']);
    expect(like('evaporator fan')).toEqual(['FM-16']);
    expect(like('motor drain')).toEqual([]);
  });
  it('is not looked for by a single letter, and no more are shown than asked', () => {
    expect([like('f'), like(' '), like('')]).toEqual([[], [], []]);
    expect(like('an', 1)).toHaveLength(1);
    expect(like('t-1')).toEqual(['DT-10', 'CT-1']);
    expect(partsLike([...PARTS, ...PARTS], 'fm')).toHaveLength(4);
  });
});
