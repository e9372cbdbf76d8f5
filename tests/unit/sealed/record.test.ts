import { describe, expect, it } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import { daysBetween } from '@/lib/core/calendar';
import { additionsOf, certifiedFor, type CertificateOnFile } from '@/lib/core/refrigerant-book';
import { depletesOzone } from '@/lib/core/refrigerants/catalogue';
import { readVacuumText, recordState, roomShare, type SealedStepEntry } from '@/lib/core/sealed';

const entry = (step: SealedStepEntry['step'], recordId = 'r1', id = step): SealedStepEntry => ({
  id, recordId, unitId: 'u', step, work: null, skippedWhy: 'x', certificateId: null, overruledBy: '', overruledWhy: '', note: '', at: '2026-11-27T10:00:00Z',
}); // prettier-ignore

describe('where a repair record stands', () => {
  it('goes on with what an earlier visit began', () => {
    const before = { recordId: 'r1', steps: [entry('isolate'), entry('recover')] };
    expect(recordState([], before)).toMatchObject({ recordId: 'r1', next: 'open' });
    expect(recordState([entry('open')], before).next).toBe('braze');
    expect(recordState([], null)).toMatchObject({ recordId: null, next: 'isolate' });
    // A new one was begun instead.
    expect(recordState([entry('isolate', 'r2')], before)).toMatchObject({ recordId: 'r2', next: 'recover' });
  });
});

describe('vacuum readings as they are pasted', () => {
  it('reads minutes and microns, microns alone, and a logger’s clock', () => {
    const three = [
      { minutes: 0, microns: 280 },
      { minutes: 1, microns: 295 },
      { minutes: 2, microns: 301 },
    ];
    expect(readVacuumText('0, 280\n1, 295\n2, 301').readings).toEqual(three);
    expect(readVacuumText('280\n\n295 microns\n301').readings).toEqual(three);
    expect(readVacuumText('10:04 280\n10:05 295\n10:06 301').readings).toEqual(three);
    expect(readVacuumText('00:10:00;280\n00:11:00;295\n00:12:00;301').readings).toEqual(three);
    expect(readVacuumText('0 1,280\n1 1,295').readings.map((r) => r.microns)).toEqual([1280, 1295]);
  });
  it('tells what it could not read', () => {
    expect(readVacuumText('time microns\n0 280\n0 281\n3 4 5 6').odd).toHaveLength(2);
  });
});

describe('certificates', () => {
  const card = (kind: CertificateOnFile['kind'], expiresOn: string | null = null): CertificateOnFile => ({
    id: kind,
    kind,
    number: '1',
    expiresOn: expiresOn === null ? null : localDate(expiresOn),
  });
  const on = localDate('2026-11-27');
  const small = { chargeKg: 0.2, circuitAccess: 'sealed' } as const;
  const large = { chargeKg: 8, circuitAccess: 'ports' } as const;
  it('hold by their day and by what they reach', () => {
    expect(certifiedFor([], small, on)).toMatchObject({ holds: false, why: 'none' });
    expect(certifiedFor([card('us_608_universal', '2026-11-26')], small, on)).toMatchObject({ holds: false, why: 'expired' });
    expect(certifiedFor([card('us_608_universal', '2026-11-27')], small, on)).toMatchObject({ holds: true });
    expect(certifiedFor([card('us_608_type_1')], small, on)).toMatchObject({ holds: true });
    expect(certifiedFor([card('us_608_type_1')], large, on)).toMatchObject({ holds: false, why: 'another_unit' });
    expect(certifiedFor([card('us_608_type_1'), card('us_608_type_2')], large, on)).toMatchObject({
      certificate: { kind: 'us_608_type_2' },
    });
    expect(certifiedFor([card('eu_category_2')], { ...large, chargeKg: null }, on).holds).toBe(false);
  });
});

describe('a room and a charge that burns', () => {
  it('150 g of propane asks for 7.2 m² to stay below a quarter of the limit (0.038 kg/m³, 2.2 m high; EN 378-1, from memory)', () => {
    expect(roomShare('R290', 0.15, 20)?.leastM2).toBeCloseTo(7.18, 2);
    expect(roomShare('R290', 0.15, 20)?.verdict).toBe('below_quarter');
    expect(roomShare('R290', 0.15, 4)?.verdict).toBe('above_quarter');
    expect(roomShare('R290', 0.5, 4)?.verdict).toBe('burns');
    expect(roomShare('R134a', 0.5, 4)).toBeNull();
  });
});

describe('what was added to a unit', () => {
  const w = (on: string, kg: number) => ({ on: localDate(on), kg: -kg, way: kg > 0 ? ('charged' as const) : ('recovered' as const) });
  it('is what was charged less what was taken out to open the circuit', () => {
    expect(additionsOf([w('2026-03-01', 0.24)], daysBetween)).toEqual([{ on: '2026-03-01', kg: 0.24 }]);
    expect(additionsOf([w('2026-03-01', -0.1), w('2026-03-01', 0.24)], daysBetween)).toEqual([
      { on: '2026-03-01', kg: expect.closeTo(0.14, 9) },
    ]);
    expect(additionsOf([w('2026-03-01', -0.24), w('2026-03-04', 0.24)], daysBetween)).toEqual([]);
    expect(additionsOf([w('2026-01-01', -0.24), w('2026-03-04', 0.24)], daysBetween)).toEqual([{ on: '2026-03-04', kg: 0.24 }]);
  });
  it('R-22 and what is made with it deplete ozone', () => {
    expect(['R22', 'R12', 'R502', 'R408A', 'R409A', 'R404A', 'R134a', 'R290', 'R438A', 'R227ea'].map(depletesOzone)).toEqual([
      true, true, true, true, true, false, false, false, false, false,
    ]); // prettier-ignore
  });
});
