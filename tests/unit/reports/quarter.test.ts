import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, localDate } from '@/lib/core/calendar';
import { coilTrend, type CoilDay } from '@/lib/core/reports/coil-trend';
import { quarterBefore, quarterOf } from '@/lib/core/reports/quarter';
import { quarterForCustomer, type QuarterKitchen, type QuarterUnit } from '@/lib/core/reports/quarter-for-customer';
import { quarterUnit as unit } from '../../support/quarter';

const day = (text: string) => localDate(text);
const clean = (on: string, found: CoilDay['found'] = null): CoilDay => ({ on: day(on), found, cleaned: true });

describe('a quarter', () => {
  it('is the calendar’s, whatever day of it is named', () => {
    expect(quarterOf(day('2026-11-27'))).toEqual({ startsOn: '2026-10-01', endsBefore: '2027-01-01' });
    expect(quarterBefore(day('2026-01-01'))).toEqual({ startsOn: '2025-10-01', endsBefore: '2026-01-01' });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4000 }), (n) => {
        const on = addDays(day('2020-01-01'), n);
        const q = quarterOf(on);
        expect(q.startsOn <= on && on < q.endsBefore).toBe(true);
        expect(quarterOf(addDays(q.endsBefore, -1))).toEqual(q);
        expect(quarterBefore(on).endsBefore).toBe(q.startsOn);
      }),
    );
  });
});

describe('how a coil fouls, by its grades', () => {
  const of = (...days: CoilDay[]) => coilTrend(days);
  it('needs two looks after a cleaning', () => {
    expect(of()).toEqual({ is: 'cant_say' });
    expect(of(clean('2026-01-01'), clean('2026-03-01', 'matted'))).toEqual({ is: 'cant_say' });
    // Never cleaned between: it is one and the same fouling.
    const found = (on: string): CoilDay => ({ on: day(on), found: 'furred', cleaned: false });
    expect(of(found('2026-01-01'), found('2026-02-01'), found('2026-03-01'))).toEqual({ is: 'cant_say' });
  });
  it('is faster when as dirty much sooner or dirtier no later, slower the other way round', () => {
    const first = [clean('2026-01-01'), clean('2026-03-02', 'furred')]; // 60 days
    expect(of(...first, clean('2026-05-01', 'matted'))).toEqual({ is: 'faster', days: [60, 60] });
    expect(of(...first, clean('2026-04-01', 'furred'))).toEqual({ is: 'faster', days: [60, 30] });
    expect(of(...first, clean('2026-05-01', 'furred'))).toEqual({ is: 'same', days: [60, 60] });
    expect(of(...first, clean('2026-07-10', 'furred'))).toEqual({ is: 'slower', days: [60, 130] });
    expect(of(...first, clean('2026-05-01', 'filmed'))).toEqual({ is: 'slower', days: [60, 60] });
  });
  it('is not told where dirt and time point different ways', () => {
    const first = [clean('2026-01-01'), clean('2026-03-02', 'furred')];
    expect(of(...first, clean('2026-08-01', 'packed'))).toEqual({ is: 'cant_say' });
    expect(of(...first, clean('2026-03-22', 'filmed'))).toEqual({ is: 'cant_say' });
  });
  it('clean both times is said as that', () => {
    expect(of(clean('2026-01-01'), clean('2026-02-01', 'bare'), clean('2026-05-01', 'bare'))).toEqual({ is: 'clean', days: [31, 89] });
  });
});

const cost = (value: number, lo: number, hi: number) => ({ value, lo, hi, currency: 'USD', on: day('2026-08-03') });
const kitchen = (units: QuarterUnit[], over: Partial<QuarterKitchen> = {}): QuarterKitchen => ({
  id: 'k', name: 'Mill Street', visits: [day('2026-08-03')], nextVisit: null, finished: 0, jobs: [], units, ...over,
}); // prettier-ignore
const summer = quarterOf(day('2026-08-03'));
const report = (kitchens: QuarterKitchen[], language: 'en' | 'es' = 'en') => quarterForCustomer('Lantern', summer, kitchens, language);

describe('a quarter as the customer reads it', () => {
  const matted = unit({
    days: [
      {
        on: day('2026-08-03'),
        found: [
          { aspect: 'coil', grade: 'matted' },
          { aspect: 'drain', grade: 'runs' },
        ],
        done: [{ kind: 'coil_cleaning', label: 'Coil cleaning' }],
        reached: true,
      },
    ],
    coil: [clean('2026-04-05'), clean('2026-06-04', 'furred'), clean('2026-08-03', 'matted')],
    cost: cost(0.2, 0.1, 0.3),
    next: [{ kind: 'coil_cleaning', task: 'Coil cleaning', dueOn: '2026-10-05', rule: 'FREQ=WEEKLY;INTERVAL=8', ruleBefore: null }],
  });
  it('tells per unit what was found and done, the trend, the cost with its band, and when it comes next', () => {
    const r = report([kitchen([matted, unit({ id: 'v', name: 'Bar cooler' })])]);
    expect(r.title).toBe('Lantern, July to September 2026');
    expect(r.lead).toEqual([
      'There was one visit to your kitchen.',
      'As we met it, dirt was costing about 6 USD (3–9) of electricity in 30 days. That is of 1 of 2 units; the others were not read.',
      'No work stands open.',
      'Where two figures stand in brackets, the true one lies between them four times in five.',
    ]);
    expect(r.kitchens[0]?.units[0]).toMatchObject({
      lines: [
        'Monday, August 3: The condenser coil was matted: air came through in patches only. Done: coil cleaning.',
        'The coil fouls faster than before: judged after 60 days, and after 60 the time before.',
        'On Monday, August 3 the dirt was costing about 6 USD (3–9) of electricity in 30 days.',
      ],
      next: ['Coil cleaning: next Monday, October 5 (every 8 weeks), as before.'],
    });
    expect(r.kitchens[0]?.units[1]?.lines).toEqual(['Not looked at in this quarter.']);
  });
  it('tells days that were alike in one line', () => {
    const sound = (on: string) => ({ on: day(on), found: [{ aspect: 'drain' as const, grade: 'runs' as const }], done: [], reached: true });
    const missed = { on: day('2026-08-20'), found: [], done: [], reached: false };
    const r = report([kitchen([unit({ days: [sound('2026-07-06'), missed, sound('2026-09-07')] })])]);
    expect(r.kitchens[0]?.units[0]?.lines).toEqual([
      'Monday, July 6; Monday, September 7: All that was looked at was in order.',
      'Thursday, August 20: we could not get to it.',
    ]);
  });
  it('adds the bands of several units, never a negative loss, and none where nothing was read', () => {
    const sum = report([kitchen([unit({ cost: cost(0.2, 0.1, 0.3) }), unit({ cost: cost(-0.02, -0.1, 0.1) })])]).kitchens[0]?.lines.join(
      ' ',
    );
    // 6 (3–9) and 0 (0–3). Common to all, 0.3 of a figure by 1.28: 2.31 of the first; apart √(3² − 2.31²) = 1.92 and 3: 2.31 and 3.56 in
    // quadrature are 4.24 upwards, and the first alone downwards.
    expect(sum).toContain('about 6 USD (3–10) of electricity in 30 days.');
    const maybe = report([kitchen([unit({ cost: cost(0.01, -0.1, 0.1) })])]).kitchens[0]?.lines.join(' ');
    expect(maybe).toContain('at most 3.0 USD');
    expect(maybe).not.toMatch(/[−-]\d/);
    expect(report([kitchen([unit()])]).lead.join(' ')).not.toContain('USD');
  });
  it('says the same in Spanish, and leaves out no kitchen that was not visited', () => {
    const r = report(
      [
        kitchen([matted]),
        kitchen([], { id: 'q', name: 'Quay', visits: [], jobs: [{ unitNames: ['Bar'], what: 'Gasket', urgency: 'week' }] }),
      ],
      'es',
    );
    expect(r.title).toBe('Lantern, julio a septiembre de 2026');
    expect(r.kitchens[1]).toMatchObject({
      lines: ['Sin visitas en este trimestre.'],
      work: [{ unit: 'Bar', soon: 'Dentro de la semana' }],
    });
    expect(JSON.stringify(r)).not.toMatch(/\b(the|was|visit)\b/);
  });
});

describe('the ends of what can be typed as a date', () => {
  it.each([
    ['0001-05-05', '0001-04-01', '0001-07-01'],
    ['9999-12-31', '9999-10-01', '9999-12-31'],
  ])('have a quarter: %s', (day, startsOn, endsBefore) => expect(quarterOf(localDate(day))).toEqual({ startsOn, endsBefore }));
});
