import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as units from '@/lib/core/measures';
import { fromForm, shownInForm } from '@/lib/core/measures/entry-units';

describe('conversions', () => {
  const pairs: [string, (x: number) => number, (x: number) => number][] = [
    ['°C and K', units.celsiusToKelvin, units.kelvinToCelsius],
    ['°F and K', units.fahrenheitToKelvin, units.kelvinToFahrenheit],
    ['°F and °C', units.fahrenheitToCelsius, units.celsiusToFahrenheit],
    ['Δ°F and ΔK', units.fahrenheitDifferenceToKelvin, units.kelvinDifferenceToFahrenheit],
    ['psi and Pa', units.psiToPascal, units.pascalToPsi],
    ['bar and Pa', units.barToPascal, units.pascalToBar],
    ['kPa and Pa', units.kilopascalToPascal, units.pascalToKilopascal],
    ['inHg and Pa', units.inchOfMercuryToPascal, units.pascalToInchOfMercury],
    ['micron and Pa', units.micronToPascal, units.pascalToMicron],
    ['lb and kg', units.poundToKilogram, units.kilogramToPound],
    ['oz and kg', units.ounceToKilogram, units.kilogramToOunce],
    ['g and kg', units.gramToKilogram, units.kilogramToGram],
    ['ft and m', units.footToMetre, units.metreToFoot],
    ['Btu/h and W', units.btuPerHourToWatt, units.wattToBtuPerHour],
    ['J and kWh', units.jouleToKilowattHour, units.kilowattHourToJoule],
    ['Btu/lb and J/kg', units.btuPerPoundToJoulePerKilogram, units.joulePerKilogramToBtuPerPound],
  ];
  it.each(pairs)('%s there and back', (_, there, back) => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (x) => {
        expect(Math.abs(back(there(x)) - x)).toBeLessThan(1e-9 * (1 + Math.abs(x)));
      }),
    );
  });

  it('have the defined values (NIST SP 811)', () => {
    expect(units.fahrenheitToCelsius(-40)).toBeCloseTo(-40, 12);
    expect(units.fahrenheitToKelvin(32)).toBeCloseTo(273.15, 12);
    expect(units.PSI_PA).toBeCloseTo(6894.757, 3);
    expect(units.inchOfMercuryToPascal(29.921)).toBeCloseTo(101_324, 0);
    expect(units.ounceToKilogram(1)).toBeCloseTo(0.028349523125, 12);
    expect(units.btuPerHourToWatt(12_000)).toBeCloseTo(3516.85, 2);
    expect(units.poundsAndOunces(units.poundToKilogram(2.25))).toEqual({ pounds: 2, ounces: 4 });
    expect(units.poundsAndOunces(0.453)).toEqual({ pounds: 1, ounces: 0 });
  });
});

describe('the standard atmosphere (ISO 2533:1975, table of pressures)', () => {
  it.each([
    [0, 101_325],
    [500, 95_461.2],
    [1000, 89_876.3],
    [1500, 84_559.7],
    [2000, 79_501.4],
    [3000, 70_121.2],
    [5000, 54_048.3],
    [-500, 107_478],
  ])('%i m: %f Pa', (altitude, pressure) => {
    expect(Math.abs(units.atmosphereAt(altitude) / pressure - 1)).toBeLessThan(1e-5);
  });

  it('gives no pressure where it does not hold', () => {
    expect(units.atmosphereAt(12_000)).toBeNaN();
    expect(units.atmosphereAt(-3000)).toBeNaN();
    expect(units.atmosphereAt(NaN)).toBeNaN();
  });

  it('moves a gauge reading: the same reading is a lower pressure in the mountains', () => {
    const sea = units.psigToPascal(100, 0);
    const denver = units.psigToPascal(100, 1609);
    expect(sea - denver).toBeCloseTo(101_325 - units.atmosphereAt(1609), 6);
    expect(units.pascalToPsig(denver, 1609)).toBeCloseTo(100, 9);
    expect(units.absoluteToGauge(units.gaugeToAbsolute(5e5, 300), 300)).toBeCloseTo(5e5, 6);
  });
});

describe('a number that a form shows', () => {
  it('is written as people write it', () => {
    expect(shownInForm('mass', 'oz', 0.106)).toBe('3.74');
    expect(shownInForm('temperature', 'F', 276.5)).toBe('38');
    expect(shownInForm('length', 'ft', 1597)).toBe('5240');
  });
  it('means what is on file where it comes back as it was, and what it says where it was changed', () => {
    expect(fromForm('mass', 'oz', 3.74, 0.106)).toBe(0.106);
    expect(fromForm('mass', 'oz', 3.75, 0.106)).toBeCloseTo(0.10631, 5);
    expect(fromForm('mass', 'oz', 3.74)).toBeCloseTo(0.10603, 5);
  });
});
