import { describe, expect, it } from 'vitest';
import { distanceWords, kmFrom, kmIn, REGION_NAMES, regionOfCurrency, REGIONS, speedWords } from '@/lib/core/measures/region';

describe('distances and speeds by where the shop works', () => {
  it('goes by the international mile of 1959: 1.609344 km (NIST SP 811, appendix B.8)', () => {
    expect(kmFrom(1, 'mi')).toBe(1.609344);
    expect(kmIn(160.9344, 'mi')).toBeCloseTo(100, 12);
    expect(kmIn(kmFrom(27, 'mi'), 'mi')).toBeCloseTo(27, 12);
    expect(kmIn(5, 'km')).toBe(5);
  });

  it('writes them no finer than they are read', () => {
    expect(distanceWords(6.8, 'mi')).toBe('4.2 mi');
    expect(distanceWords(40, 'km')).toBe('40 km');
    expect(distanceWords(0.05, 'km')).toBe('50 m');
    expect(distanceWords(0.05, 'mi')).toBe('160 ft');
    expect(speedWords(45, 'mi')).toBe('28 mph');
    expect(speedWords(45, 'km')).toBe('45 km/h');
  });

  it('knows where miles are on the signs, and the country of a currency', () => {
    expect(REGION_NAMES.filter((r) => REGIONS[r].distance === 'mi')).toEqual(['us', 'gb']);
    expect(['USD', 'GBP', 'CAD', 'EUR'].map(regionOfCurrency)).toEqual(['us', 'gb', 'ca', 'elsewhere']);
  });
});
