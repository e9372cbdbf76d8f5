import { describe, expect, it } from 'vitest';
import { greatCircleKm } from '@/lib/core/planning';
import { judge, metresBetween, type Candidate } from '@/lib/core/position';
import { houseNumberOf } from '@/lib/core/position/candidates';

const here: Candidate = { lat: 41.88, lng: -87.63, label: '3821 Alder Street', precision: 'house', houseNumber: '3821', withinM: 10 };
const north = (metres: number, over: Partial<Candidate> = {}): Candidate => ({ ...here, lat: here.lat + metres / 111_195, ...over });

describe('what a found place is worth', () => {
  const said = (address: string, ...candidates: Candidate[]) => {
    const { confidence, message } = judge(address, candidates);
    return [confidence, message];
  };
  const ASKED = '3821 Alder Street, Alder Mesa';

  it('says what was found, and looks twice wherever something does not fit', () => {
    expect(said(ASKED, here)).toEqual(['fits', 'The house number fits, and no other place does.']);
    expect(said(ASKED)).toEqual(['rough', 'No place was found.']);
    expect(said(ASKED, { ...here, precision: 'area' })).toEqual(['rough', 'Only the part of town was found.']);
    expect(said(ASKED, { ...here, precision: 'street' })).toEqual(['look', 'The street was found, not the house.']);
    expect(said(ASKED, { ...here, houseNumber: '3812' })).toEqual(['look', 'House 3812 was found, not 3821.']);
    expect(said(ASKED, { ...here, houseNumber: '' })).toEqual(['look', 'The house number is not known there.']);
    expect(said('Alder House, Alder Mesa', here)).toEqual(['look', 'A place of this name; the address has no house number.']);
    expect(said('12B Mill Ln', { ...here, houseNumber: '12b' })).toEqual(['fits', 'The house number fits, and no other place does.']);
  });

  it('counts other houses that are another door, 250 m away and more', () => {
    expect(said(ASKED, here, north(240))[0]).toBe('fits');
    expect(said(ASKED, here, north(260))).toEqual(['look', 'Another place fits as well.']);
    expect(said(ASKED, here, north(260), north(-900))).toEqual(['look', '2 other places fit as well.']);
    expect(said(ASKED, here, north(5000, { precision: 'street' }))[0]).toBe('fits');
  });

  it('finds a house number at either end of the street’s name, not in a postcode', () => {
    expect(['3821 Alder Street', 'Alder Mesa, 12b Mill Ln', 'Hauptstraße 7, 80331 München', 'Mill Lane', 'Alder Mesa, CO', '  9 Foundry Ln'].map(houseNumberOf)).toEqual(['3821', '12b', '7', '', '', '9']); // prettier-ignore
  });
});

it('metres between two places are those of the great circle over any town, north or south, and over the date line', () => {
  for (const lat of [-60, -35, 0, 41.9, 60])
    for (const [dy, dx] of [[0, 0.05], [0.05, 0], [0.03, -0.04]] as const)
      for (const lng of [-87.6, 179.98]) {
        const [a, b] = [{ lat, lng }, { lat: lat + dy, lng: lng + dx }];
        expect(metresBetween(a, { ...b, lng: b.lng > 180 ? b.lng - 360 : b.lng }) / (1000 * greatCircleKm(a, b))).toBeCloseTo(1, 3);
      }
}); // prettier-ignore
