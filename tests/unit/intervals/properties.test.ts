import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { addDays, approximateWeeks, daysBetween, weeksRule, type LocalDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER as H, posterior, updatePosterior, type UnitEvent } from '@/lib/core/fouling';
import { DEFAULT_POLICY as P, reviseCoilRule } from '@/lib/core/intervals';
import { anyPlacement, anyVisit, anyWeeks, COIL, eventsOf, historyOf, revised, START, type Visit } from './support';

const visits = fc.array(anyVisit, { minLength: 1, maxLength: 8 });
const exposure = { placement: 'fryer', kitchenId: 'k' } as const;

/** The newest visit, found worse in one respect; null when it cannot be. */
function worse(v: Visit, what: 'before' | 'lnK' | 'after' | 'trip', by: number): Visit | null {
  if (what === 'trip') return { ...v, trip: true };
  if (what === 'lnK') return v.lnK === null ? null : { ...v, lnK: v.lnK - 0.15 * by };
  const grade = v[what];
  const at = grade === null ? -1 : COIL.indexOf(grade);
  return at < 0 || at === COIL.length - 1 ? null : { ...v, [what]: COIL[Math.min(COIL.length - 1, at + by)] };
}

// Every case runs the whole filter and optimiser, some of them dozens of times.
vi.setConfig({ testTimeout: 60_000 });

describe('whatever the history', () => {
  it('a worse finding at a visit never gives a longer interval', () => {
    let compared = 0;
    const what = fc.constantFrom('before' as const, 'lnK' as const, 'after' as const, 'trip' as const);
    fc.assert(
      fc.property(visits, anyPlacement, anyWeeks, what, fc.integer({ min: 1, max: 4 }), (all, placement, weeks, aspect, by) => {
        const bad = worse(all[all.length - 1] as Visit, aspect, by);
        if (!bad) return;
        compared++;
        const before = revised(all, weeks, { placement });
        const after = revised([...all.slice(0, -1), bad], weeks, { placement });
        expect(after.weeks).toBeLessThanOrEqual(before.weeks);
      }),
      { numRuns: 500 },
    );
    expect(compared).toBeGreaterThan(200);
  });

  it('the order of two findings on one day is irrelevant', () => {
    fc.assert(
      fc.property(visits, anyWeeks, fc.infiniteStream(fc.nat()), (all, weeks, stream) => {
        const { last, ...history } = historyOf(all);
        const events = history.events
          .map((e) => ({ e, key: stream.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map((x) => x.e);
        const of = (list: readonly UnitEvent[]) => {
          const h = { ...history, events: list };
          return reviseCoilRule({
            currency: 'USD',
            history: h,
            posterior: posterior(h, exposure, H),
            hyper: H,
            settings: P,
            currentRule: weeksRule(weeks),
            anchor: 'last_completed',
            lastDoneOn: last,
          });
        };
        expect(of(events)).toEqual(of(history.events));
      }),
      { numRuns: 150 },
    );
  });

  it('no finding, no change', () => {
    fc.assert(
      fc.property(visits, anyPlacement, anyWeeks, (all, placement, weeks) => {
        const silent = [...all, { gap: 60, before: null, lnK: null, after: null, trip: false }];
        const { last } = historyOf(silent);
        const r = revised(silent, weeks, { placement, lastRevisedOn: addDays(last, -30) });
        expect(r).toMatchObject({ changed: false, weeks, rule: weeksRule(weeks), reason: null, guard: 'no_evidence' });
        expect(revised(all, weeks, { placement, lastRevisedOn: historyOf(all).last }).changed).toBe(false);
      }),
      { numRuns: 200 },
    );
  });

  it('a lock holds, and says what it held back', () => {
    fc.assert(
      fc.property(visits, anyPlacement, anyWeeks, (all, placement, weeks) => {
        const free = revised(all, weeks, { placement });
        const locked = revised(all, weeks, { placement, locked: true });
        expect(locked).toMatchObject({ changed: false, rule: weeksRule(weeks), reason: null });
        expect(locked.wouldHave?.rule).toBe(free.changed ? free.rule : undefined);
        expect(locked.wouldHave?.reason).toBe(free.changed ? free.reason : undefined);
        expect(locked.returnVisitWithinDays).toBe(free.returnVisitWithinDays);
      }),
      { numRuns: 200 },
    );
  });

  it('the rails hold: never longer after bad news, twice as long at most, within bounds, with a reason or not at all', () => {
    fc.assert(
      fc.property(
        visits,
        anyPlacement,
        anyWeeks,
        fc.option(fc.integer({ min: 4, max: 30 }), { nil: undefined }),
        (all, placement, weeks, maxWeeks) => {
          const r = revised(all, weeks, {
            placement,
            bounds: maxWeeks === undefined ? {} : { maxWeeks, maxReason: 'warranty' },
          });
          const newest = all[all.length - 1] as Visit;
          expect(r.changed).toBe(r.weeks !== weeks);
          expect(r.reason === null).toBe(!r.changed);
          if (r.changed) expect(Number.isInteger(r.weeks)).toBe(true);
          if (newest.before === 'packed' || newest.trip) {
            expect(r.weeks).toBeLessThanOrEqual(weeks);
            expect(r.returnVisitWithinDays).toBe(P.returnWithinDays);
          } else expect(r.returnVisitWithinDays).toBeUndefined();
          if (r.weeks > weeks) expect(r.weeks).toBeLessThanOrEqual(weeks * P.loosenFactor);
          if (r.weeks > weeks) expect(r.evidence.cleanRunning).toBeGreaterThanOrEqual(P.cleanFindings);
          // Bounds are applied when there is something to go by: no finding, no change.
          if (r.guard !== 'no_evidence') expect(r.weeks).toBeLessThanOrEqual(Math.min(maxWeeks ?? Infinity, P.maxWeeks.coil_cleaning));
          expect(daysBetween(historyOf(all).last, r.dueOn)).toBe(7 * r.weeks);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('replaying a history', () => {
  /** Visits made when the rules asked for them, beliefs kept up to date as they came, through JSON. */
  function live(all: readonly Visit[], placement: 'fryer'): { rules: string[]; events: UnitEvent[] } {
    let belief = posterior({ startedOn: START, startedClean: true, events: [] }, { placement, kitchenId: 'k' }, H);
    let rule = weeksRule(12);
    let on: LocalDate = START;
    const events: UnitEvent[] = [];
    const rules = all.map((v) => {
      on = addDays(on, Math.round(7 * approximateWeeks(rule)) + (v.gap % 10));
      const today = eventsOf(v, on);
      events.push(...today);
      belief = JSON.parse(JSON.stringify(updatePosterior(belief, today, H))) as typeof belief;
      const history = { startedOn: START, startedClean: true, events: [...events] };
      rule = reviseCoilRule({
        currency: 'USD',
        history,
        posterior: belief,
        hyper: H,
        settings: P,
        currentRule: rule,
        anchor: 'last_completed',
        lastDoneOn: on,
      }).rule;
      return rule;
    });
    return { rules, events };
  }

  it('from its events alone gives the same rules', () => {
    fc.assert(
      fc.property(fc.array(anyVisit, { minLength: 1, maxLength: 10 }), (all) => {
        const { rules, events } = live(all, 'fryer');
        const days = [...new Set(events.map((e) => e.on))];
        expect(days).toHaveLength(rules.length);
        // Histories of every length come: the last step of each stands for its others, which a shorter one ends with.
        const history = { startedOn: START, startedClean: true, events };
        const replayed = reviseCoilRule({
          currency: 'USD',
          history,
          posterior: posterior(history, exposure, H),
          hyper: H,
          settings: P,
          currentRule: rules.at(-2) ?? weeksRule(12),
          anchor: 'last_completed',
          lastDoneOn: days.at(-1) ?? START,
        });
        expect(replayed.rule).toBe(rules.at(-1));
      }),
      { numRuns: 80 },
    );
  });
});
