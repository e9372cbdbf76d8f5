import { describe, expect, it } from 'vitest';
import { wordsIn } from '@/lib/core/customer-words';
import { EN } from '@/lib/core/customer-words/en';
import { ES } from '@/lib/core/customer-words/es';
import { ASPECTS, gradesOf } from '@/lib/core/findings/grades';
import { visitForCustomer, type AroundVisit } from '@/lib/core/reports/visit-for-customer';
import type { EstimateOk } from '@/lib/core/condenser/types';
import type { UnitReport, VisitReport } from '@/lib/core/tablet/visit-report';

const F = { temperature: 'F', pressure: 'psig', mass: 'oz' } as const;
const band = (value: number, lo: number, hi: number) => ({ value, lo, hi, level: 0.8 as const });
const at = Date.parse('2026-11-24T15:05:00Z');
const found = (aspect: UnitReport['findings'][number]['aspect'], grade: UnitReport['findings'][number]['grade'], phase: 'found' | 'left' = 'found') => ({
  id: `${aspect}${phase}`, aspect, grade, why: grade ? '' : 'boxed in', phase, note: '', at, by: 'Tova', superseded: false,
}); // prettier-ignore
const reading = (phase: 'before' | 'after', riseK: number, cost: [number, number, number] | null) => ({
  id: phase, phase, at, by: 'Tova', superseded: false, values: {}, questioned: [],
  estimate: {
    status: 'ok',
    riseK: band(riseK, riseK - 1, riseK + 1),
    extraCostPerDay: cost && { ...band(...cost), currency: 'USD' },
  } as unknown as EstimateOk,
}); // prettier-ignore
const unit = (over: Partial<UnitReport>): UnitReport => ({
  id: 'u1', name: 'Reach-in by the pass', archived: false, outcome: { outcome: 'seen', reason: '' }, tasks: [], findings: [], readings: [],
  photos: [], followUps: [], events: [], parts: [], foodWarnings: [], ...over,
}); // prettier-ignore
const visit = (units: UnitReport[], over: Partial<VisitReport> = {}): VisitReport => ({
  id: 'v', status: 'done', startsAt: at, endsAt: at + 3_600_000, arrivedAt: at, leftAt: at + 2_700_000, cancelReason: '',
  technician: { id: 't', name: 'Tova Lind' },
  kitchen: { id: 'k', name: 'Mill Street', timeZone: 'America/Chicago', customer: { id: 'c', name: 'Lantern' } },
  signature: { nobody: true }, parts: [], foodWarnings: [], photos: [], notRevised: false, units, changes: [], entries: [], ...over,
}); // prettier-ignore
const around = (over: Partial<AroundVisit> = {}): AroundVisit => ({ shop: 'Larkspur Cold', next: [], jobs: [], ...over });
const matted = unit({
  tasks: [{ id: 't', kind: 'coil_cleaning', label: 'Coil cleaning', outcome: 'done', reason: '' }],
  findings: [found('coil', 'matted'), found('coil', 'bare', 'left'), found('drain', 'runs')],
  readings: [reading('before', 25, [0.13, 0.07, 0.23]), reading('after', 13, null)],
});

describe('a visit as the customer reads it', () => {
  it('tells found, done, what the dirt was costing with its band, and why the next date is what it is', () => {
    const next = [
      {
        unitId: 'u1',
        kind: 'coil_cleaning',
        task: 'Coil cleaning',
        dueOn: '2027-01-19',
        rule: 'FREQ=WEEKLY;INTERVAL=8',
        ruleBefore: 'FREQ=WEEKLY;INTERVAL=12',
      },
    ];
    const r = visitForCustomer(visit([matted]), around({ next }), 'en', F);
    expect(r.title).toBe('Mill Street, Tuesday, November 24');
    expect(r.lead[0]).toBe('Tova Lind of Larkspur Cold was with you from 9:05 AM to 9:50 AM.');
    expect(r.units[0]?.lines).toEqual([
      'The condenser coil was matted: air came through in patches only.',
      'It was left clean.',
      'The drain runs.',
      'Done: coil cleaning.',
      'The condenser ran 45 °F (43–47) warmer than the air that cools it, 23 °F (22–25) after cleaning: the less, the easier it works.',
      'The dirt was costing about 4 USD (2–7) of electricity in 30 days.',
    ]);
    expect(r.units[0]?.next).toEqual([
      'Coil cleaning: next Tuesday, January 19 (every 8 weeks), sooner than the 12 weeks before, because of what was found.',
    ]);
    expect(r.lead).toContain('Nothing was found that cannot wait for the next visit.');
  });

  it('says what could not be seen: a loss that may be none, an aspect not looked at, a unit not reached', () => {
    const clean = unit({ findings: [found('coil', null)], readings: [reading('before', 13, [-0.03, -0.06, 0.02])] });
    const lines = visitForCustomer(visit([clean]), around(), 'en', F).units[0]?.lines.join(' ');
    expect(lines).toContain('Condenser coil: not looked at (boxed in).');
    expect(lines).toContain('No loss by dirt was to be seen; at most 0.6 USD');
    expect(lines).not.toMatch(/[−-]\d/);
    const away = unit({ outcome: { outcome: 'could_not_reach', reason: 'locked' }, findings: [found('coil', 'bare')] });
    expect(visitForCustomer(visit([away]), around(), 'en', F).units[0]?.lines).toEqual(['We could not get to it: locked.']);
  });

  it('puts food and open work before everything, with whom was told and how soon', () => {
    const warned = visit([matted], { foodWarnings: [{ id: 'w', unitId: 'u1', boxK: 281.48, toldTo: 'the chef', toldAt: at, note: '' }] });
    const r = visitForCustomer(
      warned,
      around({ jobs: [{ unitNames: ['Reach-in by the pass'], what: 'Drain frozen', urgency: 'week' }] }),
      'es',
      F,
    );
    expect(r.food[0]).toBe('Reach-in by the pass: La cámara estaba a 47 °F; se avisó a the chef a las 9:05.');
    expect(r.work).toEqual([{ unit: 'Reach-in by the pass', what: 'Drain frozen', soon: 'Dentro de la semana', urgency: 'week' }]);
    expect(r.title).toBe('Mill Street, martes, 24 de noviembre');
    expect(r.units[0]?.lines[1]).toBe('Quedó limpio.');
  });

  it('has a sentence for every grade, in every language, and none twice', () => {
    for (const language of ['en', 'es'] as const) {
      const sentences = ASPECTS.flatMap((a) => gradesOf(a).map((g) => (wordsIn(language).found[a] as Record<string, string>)[g.grade]));
      expect(sentences.every((s) => s && s.length > 10)).toBe(true);
      expect(new Set(sentences).size).toBe(sentences.length);
    }
  });

  it('in Spanish leaves nothing in English', () => {
    const flat = (o: object): string[] =>
      Object.values(o).flatMap((v) => (typeof v === 'string' ? [v] : typeof v === 'object' && v ? flat(v as object) : []));
    const english = new Set(flat(EN));
    expect(flat(ES).filter((s) => english.has(s))).toEqual([]);
  });
});
