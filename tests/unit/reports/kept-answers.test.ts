import { describe } from 'vitest';
import { localDate } from '@/lib/core/calendar';
import type { EstimateOk } from '@/lib/core/condenser/types';
import { LANGUAGES, wordsIn, type Language } from '@/lib/core/customer-words';
import { ASPECTS, gradesOf } from '@/lib/core/findings/grades';
import { quarterForCustomer, type QuarterKitchen, type QuarterUnit } from '@/lib/core/reports/quarter-for-customer';
import { quarterOf } from '@/lib/core/reports/quarter';
import { visitForCustomer } from '@/lib/core/reports/visit-for-customer';
import type { UnitReport, VisitReport } from '@/lib/core/tablet/visit-report';
import { keptAnswers } from '../../support/kept-answers';
import { quarterUnit } from '../../support/quarter';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs reports`.
// It shows every sentence that a customer would read otherwise than before; whether it is a good one is for a reader to say.

const F = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const C = { temperature: 'C', pressure: 'bar', mass: 'g' } as const;
const at = Date.parse('2026-11-24T15:05:00Z');
const band = (value: number, lo: number, hi: number) => ({ value, lo, hi, level: 0.8 as const });
type Finding = UnitReport['findings'][number];
const found = (aspect: Finding['aspect'], grade: Finding['grade'], phase: Finding['phase'] = 'found', superseded = false): Finding => ({ id: `${aspect}${phase}`, aspect, grade, why: grade ? '' : 'boxed in', phase, note: '', at, by: 'Tova', superseded }); // prettier-ignore
const reading = (phase: 'before' | 'after', riseK: number, cost: [number, number, number] | null) => ({ id: phase, phase, at, by: 'Tova', superseded: false, values: {}, questioned: [], estimate: { status: 'ok', riseK: band(riseK, riseK - 1, riseK + 1), extraCostPerDay: cost && { ...band(...cost), currency: 'USD' } } as unknown as EstimateOk }); // prettier-ignore
const unit = (over: Partial<UnitReport>): UnitReport => ({ id: 'u1', name: 'Reach-in', archived: false, outcome: null, tasks: [], findings: [], readings: [], photos: [], followUps: [], events: [], parts: [], foodWarnings: [], ...over }); // prettier-ignore
const task = (kind: string, outcome: UnitReport['tasks'][number]['outcome'], reason = '') => ({ id: kind, kind, label: kind === 'own' ? 'Wipe The Door' : kind, outcome, reason }); // prettier-ignore
const photo = (id: string, phase: 'before' | 'after') => ({ id, fileId: id, aspect: null, phase, takenAt: at });

const UNITS: UnitReport[] = [
  unit({ tasks: [task('coil_cleaning', 'done'), task('drain_inspection', 'done'), task('own', 'done'), task('evaporator_inspection', 'not_done', 'no key')], findings: [found('coil', 'packed', 'found', true), found('coil', 'matted'), found('coil', 'bare', 'left'), found('drain', 'blocked'), found('drain', 'slow', 'left'), found('ice', null)], readings: [reading('before', 25, [0.13, 0.07, 0.23]), reading('after', 13, null)], parts: [{ id: 'p', unitId: 'u1', what: 'Fan motor', quantity: 2 }], photos: ['a', 'b', 'c', 'd', 'e'].map((id) => photo(id, 'before')).concat(photo('z', 'after')) }), // prettier-ignore
  unit({ id: 'u2', name: 'Walk-in', readings: [reading('before', 13, [-0.03, -0.06, 0.02])] }),
  unit({ id: 'u3', name: 'Prep', readings: [reading('after', 13, [0.3, 0.1, 0.5])], outcome: { outcome: 'seen', reason: '' } }),
  unit({ id: 'u4', name: 'Bar', outcome: { outcome: 'could_not_reach', reason: 'locked' } }),
  unit({ id: 'u5', name: 'Display', outcome: { outcome: 'gone', reason: 'sold' } }),
  unit({ id: 'u6', name: 'Nobody looked' }),
];
const visit = (over: Partial<VisitReport> = {}): VisitReport => ({ id: 'v', status: 'done', startsAt: at, endsAt: at + 3_600_000, arrivedAt: at, leftAt: at + 2_700_000, cancelReason: '', technician: { id: 't', name: 'Tova Lind' }, kitchen: { id: 'k', name: 'Mill Street', timeZone: 'America/Chicago', customer: { id: 'c', name: 'Lantern' } }, signature: { nobody: true }, parts: [], foodWarnings: [], photos: [], notRevised: false, units: UNITS, changes: [], entries: [], ...over }); // prettier-ignore
const next = (rule: string, ruleBefore: string | null) => ({
  unitId: 'u1',
  kind: 'coil_cleaning',
  task: 'Coil cleaning',
  dueOn: '2027-01-19',
  rule,
  ruleBefore,
});
const RULES = [next('FREQ=WEEKLY;INTERVAL=8', 'FREQ=WEEKLY;INTERVAL=12'), next('FREQ=WEEKLY', 'FREQ=WEEKLY;INTERVAL=12'), next('FREQ=WEEKLY;INTERVAL=12', null), next('FREQ=WEEKLY;INTERVAL=12', 'FREQ=WEEKLY;INTERVAL=8'), next('FREQ=MONTHLY;BYMONTHDAY=1', null)]; // prettier-ignore
const JOBS = (['now', 'today', 'week', 'next_visit'] as const).map((urgency) => ({
  unitNames: ['Walk-in', 'Bar'],
  what: 'Door hinge',
  urgency,
}));
const FOOD = [{ id: 'f', unitId: 'u2', boxK: 283.5, toldTo: 'Petra', toldAt: at + 600_000, note: '' }];

const d = localDate;
const cost = (value: number, lo: number, hi: number, currency = 'USD') => ({ value, lo, hi, currency, on: d('2026-11-02') });
const looked = (on: string, grade: string, done = true): QuarterUnit['days'][number] => ({ on: d(on), found: [{ aspect: 'coil', grade: grade as 'bare' }], done: done ? [{ kind: 'coil_cleaning', label: 'Coil cleaning' }] : [], reached: true }); // prettier-ignore
const coil = (...days: [string, string | null][]): QuarterUnit['coil'] =>
  days.map(([on, g]) => ({ on: d(on), found: g as 'bare' | null, cleaned: true }));
const kitchen = (over: Partial<QuarterKitchen> = {}): QuarterKitchen => ({ id: 'k', name: 'Mill Street', visits: [d('2026-10-05'), d('2026-11-02')], nextVisit: d('2027-01-04'), finished: 2, jobs: JOBS.slice(0, 2), units: [], ...over }); // prettier-ignore
const QUARTERS: Record<string, QuarterKitchen[]> = {
  full: [
    kitchen({
      units: [
        quarterUnit({ days: [looked('2026-10-05', 'matted'), looked('2026-11-02', 'matted'), looked('2026-12-01', 'bare', false), { on: d('2026-12-08'), found: [], done: [], reached: false }, { on: d('2026-12-09'), found: [], done: [{ kind: 'own', label: 'Wipe' }], reached: true }], coil: coil(['2026-08-01', null], ['2026-10-05', 'furred'], ['2026-11-02', 'matted']), cost: cost(0.2, 0.1, 0.4), next: RULES.slice(0, 1) }), // prettier-ignore
        quarterUnit({ id: 'u2', name: 'Walk-in', coil: coil(['2026-06-01', null], ['2026-08-01', 'matted'], ['2026-11-02', 'furred']), days: [looked('2026-11-02', 'furred')], cost: cost(0.01, -0.02, 0.03) }), // prettier-ignore
        quarterUnit({
          id: 'u3',
          name: 'Bar',
          coil: coil(['2026-06-01', null], ['2026-08-01', 'bare'], ['2026-11-02', 'bare']),
          days: [looked('2026-11-02', 'bare')],
        }),
        quarterUnit({ id: 'u4', name: 'Prep', coil: coil(['2026-06-01', null], ['2026-08-01', 'furred'], ['2026-10-01', 'furred']), days: [looked('2026-10-01', 'furred')] }), // prettier-ignore
        quarterUnit({
          id: 'u5',
          name: 'Display',
          coil: coil(['2026-06-01', null], ['2026-08-01', 'furred']),
          days: [looked('2026-10-01', 'furred')],
        }),
        quarterUnit({ id: 'u6', name: 'Nobody' }),
      ],
    }),
  ],
  quiet: [kitchen({ visits: [], nextVisit: null, finished: 0, jobs: [], units: [quarterUnit({ cost: cost(0.01, -0.02, 0.03) })] }), kitchen({ id: 'k2', finished: 1, jobs: [], units: [quarterUnit({ cost: cost(1, 0.5, 2, 'EUR') })] })], // prettier-ignore
  'no loss at all': [kitchen({ visits: [d('2026-10-05')], units: [quarterUnit({ cost: cost(-1, -2, -0.5) })], jobs: JOBS.slice(0, 1) })],
};

const inBoth = (of: (language: Language) => unknown) => () => Object.fromEntries(LANGUAGES.map((language) => [language, of(language)]));

describe('kept answers of reports', () => {
  keptAnswers(import.meta.dirname, {
    'a visit with everything': inBoth((l) =>
      visitForCustomer(visit({ foodWarnings: FOOD }), { shop: 'Larkspur', next: RULES, jobs: JOBS }, l, F),
    ),
    'a visit with little, metric': inBoth((l) => visitForCustomer(visit({ units: UNITS.slice(1, 2), leftAt: null, arrivedAt: null, foodWarnings: FOOD, signature: { nobody: false, by: 'Petra', png: 'x' } as VisitReport['signature'] }), { shop: 'Larkspur', next: [], jobs: JOBS.slice(0, 1) }, l, C)), // prettier-ignore
    'a visit with nothing': inBoth((l) =>
      visitForCustomer(visit({ units: [], signature: null }), { shop: 'Larkspur', next: [], jobs: [] }, l, C),
    ),
    ...Object.fromEntries(Object.entries(QUARTERS).map(([name, kitchens]) => [`a quarter, ${name}`, inBoth((l) => quarterForCustomer('Lantern', quarterOf(d('2026-11-02')), kitchens, l))])), // prettier-ignore
    'what is found, in words': inBoth((l) => {
      const say = wordsIn(l);
      return Object.fromEntries(ASPECTS.map((aspect) => [aspect, [say.aspect[aspect], ...gradesOf(aspect).map((g) => (say.found[aspect] as Record<string, string>)[g.grade])]])); // prettier-ignore
    }),
    'a visit left as it was found': inBoth((l) => visitForCustomer(visit({ units: ASPECTS.map((aspect) => unit({ id: aspect, name: aspect, findings: [found(aspect, gradesOf(aspect)[0]?.grade ?? null), found(aspect, gradesOf(aspect).at(-1)?.grade ?? null, 'left')] })) }), { shop: 'Larkspur', next: [], jobs: [] }, l, F).units.map((u) => u.lines)), // prettier-ignore
  });
});
