import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { localDate } from '@/lib/core/calendar';
import { DEFAULT_HYPER, posterior } from '@/lib/core/fouling';
import { STORED_COLUMNS } from '@/lib/database/stored';
import { STORED_FLEET_BELIEF, STORED_POSTERIOR } from '@/lib/database/stored/fouling';
import { STORED_HOURS } from '@/lib/database/stored/shop';
import { STORED_REPORT } from '@/lib/database/stored/imports';
import { STORED_PROPOSAL } from '@/lib/database/stored/planning';
import { STORED_ENTERED, STORED_ENTRY_DETAIL } from '@/lib/database/stored/records';
import { packedNumbers, packNumbers } from '@/lib/database/stored/parts';
import { stored, StoredJsonError } from '@/lib/database/stored/stored';
import { columnsOf } from '../../support/prisma-schema';

const schema = readFileSync(resolve('prisma/schema.prisma'), 'utf8');
const jsonColumns = [...schema.matchAll(/^model (\w+) \{/gm)].flatMap(([, model = '']) =>
  [...columnsOf(model)].filter(([, type]) => /^Json\??(\[\])?$/.test(type)).map(([column]) => `${model}.${column}`),
);

describe('stored JSON', () => {
  it('has a shape and a version for every Json column', () => {
    expect(jsonColumns.length).toBeGreaterThan(20);
    expect(Object.keys(STORED_COLUMNS).sort()).toEqual([...jsonColumns].sort());
  });

  const SIZE = stored('size', 2, z.object({ metres: z.number() }), {
    1: (json) => ({ metres: z.object({ feet: z.number() }).parse(json).feet * 0.3048 }),
    0: (json) => ({ feet: json }),
  });

  it('is brought up from every version before, and from before there were versions', () => {
    expect(SIZE.write({ metres: 3 })).toEqual({ metres: 3, v: 2 });
    expect(SIZE.read({ metres: 3, v: 2 })).toEqual({ metres: 3 });
    expect(SIZE.read({ feet: 10, v: 1 })).toEqual({ metres: 3.048 });
    expect(SIZE.read(10)).toEqual({ metres: 3.048 });
    expect(SIZE.readOrNull(null)).toBeNull();
  });

  it('says what is wrong with it, and that it is of a later program', () => {
    const said = (json: unknown) => {
      try {
        return SIZE.read(json);
      } catch (e) {
        return e instanceof StoredJsonError ? e.message : e;
      }
    };
    expect(said({ metres: 'three', v: 2 })).toMatch(/^Stored size \(version 2\) cannot be read: metres: /);
    expect(said({ metres: 3, v: 3 })).toBe('Stored size cannot be read: version 3 is newer than this program, which knows 2');
  });

  it('reads lists as they were kept before, and as they are kept now', () => {
    const hours = [{ weekday: 0 as const, from: '07:00', to: '16:00' }];
    expect(STORED_HOURS.read(hours)).toEqual(hours);
    expect(STORED_HOURS.read(STORED_HOURS.write(hours))).toEqual(hours);
  });

  it('reads beliefs of before growth levelled off by deposit, and of before eyes told how often a grade is written amiss', () => {
    const asBefore = (json: object): unknown =>
      JSON.parse(
        JSON.stringify(json)
          .replaceAll('"levelling":{"probability":0.3,"ceiling":0.65}', '"asymptotic":{"probability":0.3,"tauDays":150}')
          .replaceAll('"levelling":', '"asymptotic":')
          .replace(/"v":[45]/, '"v":3'),
      );
    const fleet = { fouling: DEFAULT_HYPER, failures: {} };
    expect(STORED_FLEET_BELIEF.read(asBefore(STORED_FLEET_BELIEF.write(fleet)))).toEqual(fleet);
    // Eyes of before version 5 told something else: they are learned anew.
    const eyed = { ...fleet, fouling: { ...DEFAULT_HYPER, eyes: { ann: [0.1, 0.1, 0.1, 0.1, 0.4] } } };
    expect(STORED_FLEET_BELIEF.read({ ...STORED_FLEET_BELIEF.write(eyed), v: 4 })).toEqual(fleet);
    expect(STORED_FLEET_BELIEF.read(STORED_FLEET_BELIEF.write(eyed))).toEqual(eyed);
    const history = { startedOn: localDate('2026-01-01'), startedClean: true, events: [] };
    const belief = STORED_POSTERIOR.write(posterior(history, { placement: 'fryer', kitchenId: 'k' }, DEFAULT_HYPER));
    expect(JSON.stringify(asBefore(belief))).not.toContain('levelling');
    expect(STORED_POSTERIOR.read(asBefore(belief))).toEqual(STORED_POSTERIOR.read(belief));
  });

  it('reads what earlier versions kept under other names, at whatever depth', () => {
    const finding = { code: 'no_skill', mend: { at: 'people', label: 'Who' }, tasks: 1, weight: 'assumed' };
    const none = { total: 0, driving: 0, drivingMinutes: 0, visits: 0, overtime: 0, overtimeMinutes: 0, lateness: 0, latenessMinutes: 0, early: 0, overdue: 0, left: 0 }; // prettier-ignore
    const proposal = {
      visits: [], unplaced: [], later: 0, input: [{ ...finding, words: 'Nobody may.' }], due: { tasks: 0, kitchens: 0, searched: 0 },
      cost: none, couldSaveMinutes: null, proven: false, kept: 0, searchMs: 1, seed: 1,
    }; // prettier-ignore
    expect(STORED_PROPOSAL.read({ ...proposal, v: 1 }).input).toEqual([{ ...finding, message: 'Nobody may.' }]);
    expect(STORED_ENTRY_DETAIL.read({ note: 'a b', told: 'a', v: 1 })).toEqual({ note: 'a b', forTablet: 'a' });
    expect(STORED_REPORT.read({ problems: [], summary: { known: 3 } }).summary.rowsOnFile).toBe(3);
  });

  it('keeps long lists of numbers as bytes to the last bit, reads them as digits too, and refuses what is neither', () => {
    const list = [0.1 + 0.2, -1e-308, Number.MAX_VALUE, 5e-324, -0, Math.PI, 42];
    expect(packedNumbers.parse(packNumbers(list))).toEqual(list);
    expect(packedNumbers.parse(JSON.parse(JSON.stringify([0.1, 2])))).toEqual([0.1, 2]);
    expect(packedNumbers.parse(packNumbers([]))).toEqual([]);
    for (const bad of ['AAAA', '0.1, 0.2 and 3 more', packNumbers([NaN]), packNumbers([1, Infinity]), [1, '2'], null, 7])
      expect(packedNumbers.safeParse(bad).success, String(bad)).toBe(false);
  });

  it('reads figures that an earlier demo shop kept as numbers', () => {
    expect(STORED_ENTERED.read({ boxK: { value: 38.5, unit: '°F' } })).toEqual({ boxK: { text: '38.5', unit: '°F' } });
  });
});
