import { describe, expect, it } from 'vitest';
import { analyseLog, readHeader, readRow, type LogRow } from '@/checks/logger-file';
import { minuteOf } from '@/checks/logger-file/rows';
import { balance } from '@/lib/core/condenser/machine/balance';
import { loggedUnit, type LoggedKind } from '@/checks/logger-file/equipment';
import { conductanceFromRise, modelOf } from '@/lib/core/condenser/machine/model';
import { cleanTrend } from '@/checks/logger-file/trend';
import { RandomStream } from '@/lib/core/numerics/random';

const header = (text: string) => readHeader(text.split(','));

describe('reading a log', () => {
  const h = header('unit,timestamp,refrigerant,head_psig,suction_kpa_abs,air_in_f,liquid_c,altitude_ft,state');

  it('turns units by suffix into SI', () => {
    const { row, problems } = readRow(h, ['A', '8/27/2017 13:15', 'R-404A', '250', '400', '86', '35', '5000', 'Clean'], 2);
    expect(problems).toEqual([]);
    expect(row).toMatchObject({ unit: 'A', refrigerant: 'R404A', suctionPa: 400_000, state: 'clean', line: 2 });
    expect(row!.airInK).toBeCloseTo(303.15, 9);
    expect(row!.liquidK).toBeCloseTo(308.15, 9);
    // 5000 ft: 84.3 kPa by the standard atmosphere.
    expect(row!.headPa! - 250 * 6894.757293).toBeGreaterThan(84_200);
    expect(row!.headPa! - 250 * 6894.757293).toBeLessThan(84_400);
  });

  it('names columns it does not know and those it needs', () => {
    expect(header('refrigerant,head_bar,air_in_f,colour')).toMatchObject({
      unknown: ['head_bar', 'colour'],
      missing: ['head_psig or head_kpa_abs'],
    });
  });

  it.each([
    [['A', '', 'R404A', 'abc', '', '86', '', '', ''], 'head_psig', /not a number/],
    [['A', '', 'R9', '250', '', '86', '', '', ''], 'refrigerant', /unknown refrigerant/],
    [['A', '', '', '250', '', '86', '', '', ''], 'refrigerant', /no refrigerant/],
    [['A', '', 'R404A', '250'], undefined, /4 cells/],
  ])('names a row it cannot read: %s', (cells, column, message) => {
    const { row, problems } = readRow(h, cells, 7);
    expect(row).toBeNull();
    expect(problems[0]).toMatchObject({ line: 7, ...(column ? { column } : {}) });
    expect(problems[0]!.message).toMatch(message);
  });

  it('takes an unknown state as empty and says so', () => {
    const { row, problems } = readRow(h, ['A', '', 'R404A', '250', '', '86', '', '', 'filthy'], 3);
    expect(row?.state).toBe('');
    expect(problems).toHaveLength(1);
  });

  it('counts minutes in either date style', () => {
    expect(minuteOf('2017-08-27T13:15:00') - minuteOf('8/27/2017 12:00')).toBe(75);
    expect(minuteOf('8/27/17 1:15 PM')).toBe(minuteOf('2017-08-27 13:15'));
    expect(minuteOf('yesterday')).toBeNaN();
  });
});

/** Rows of a made-up machine: clean, then with part of its conductance, in weather of its own each day. */
function made(kind: LoggedKind, refrigerant: string, left: number, drop: (keyof LogRow)[] = []): LogRow[] {
  const { unit, profile } = loggedUnit(kind, refrigerant);
  const model = modelOf(unit, { profile })!;
  const clean = conductanceFromRise(model, profile.cleanRiseK);
  const random = new RandomStream(3, `${kind} ${left}`);
  return Array.from({ length: 120 }, (_, i) => {
    const dirty = i >= 80;
    const airInK = (dirty ? 303 : 297) + 5 * Math.sin(i / 8) + random.normal(0, 0.2);
    const k = clean * (dirty ? left : 1) * Math.exp(random.normal(0, 0.015));
    const s = balance(model, k, { airK: airInK, boxK: unit.boxSetPointK });
    if (s.status !== 'ok') throw new Error(s.message);
    const row: LogRow = {
      line: i + 2,
      unit: 'A',
      timestamp: `row ${i}`,
      minute: i * 15,
      refrigerant,
      state: dirty ? 'dirty' : 'clean',
      headPa: s.headPa,
      suctionPa: s.suctionPa,
      airInK,
      liquidK: s.liquidLineK,
      suctionLineK: s.suctionLineK,
      dischargeK: s.dischargeLineK,
    };
    for (const key of drop) delete row[key];
    return row;
  });
}

const mean = (v: number[]) => v.reduce((a, b) => a + b, 0) / v.length;

// Within 0.02: the logs are written with one subcooling and a shell that gives off one part of the power; the estimate
// lets line and shell give off more as the head rises.
const NEAR = 1.4;

describe('a log against its own clean rows', () => {
  it.each([
    ['air_conditioning', 'R410A', []],
    ['medium', 'R134a', []],
    ['low', 'R404A', []],
    ['medium', 'R448A', ['dischargeK']],
    ['air_conditioning', 'R410A', ['suctionPa', 'liquidK', 'suctionLineK', 'dischargeK']],
  ] as [LoggedKind, string, (keyof LogRow)[]][])('finds the conductance put in: %s %s without %s', (kind, refrigerant, drop) => {
    const results = analyseLog(made(kind, refrigerant, 0.65, drop));
    const dirty = results.filter((r) => r.row.state === 'dirty' && r.status === 'ok');
    expect(dirty.length).toBeGreaterThan(30);
    expect(mean(dirty.map((r) => r.conductanceRatio!.value))).toBeCloseTo(0.65, NEAR);
    expect(mean(dirty.map((r) => r.powerRatio!.value))).toBeGreaterThan(1.0);
    expect(mean(dirty.map((r) => r.coolingRatio!.value))).toBeLessThan(1);
    const clean = results.filter((r) => r.row.state === 'clean' && r.status === 'ok');
    expect(mean(clean.map((r) => r.conductanceRatio!.value))).toBeCloseTo(1, 2);
    for (const r of dirty) expect(r.conductanceRatio!.lo).toBeLessThan(r.conductanceRatio!.hi);
  });

  it('compares power and cooling at the same air, though the dirty days were hotter', () => {
    const rows = made('air_conditioning', 'R410A', 0.65);
    const results = analyseLog(rows);
    const { unit, profile } = loggedUnit('air_conditioning', 'R410A');
    const model = modelOf(unit, { profile })!;
    const k = conductanceFromRise(model, profile.cleanRiseK);
    const at = (left: number) => balance(model, k * left, { airK: 303, boxK: unit.boxSetPointK });
    const [a, b] = [at(0.65), at(1)];
    if (a.status !== 'ok' || b.status !== 'ok') throw new Error('no balance');
    const dirty = results.filter((r) => r.row.state === 'dirty' && r.status === 'ok');
    expect(Math.abs(mean(dirty.map((r) => r.powerRatio!.value)) - a.powerW / b.powerW)).toBeLessThan(0.015);
    expect(Math.abs(mean(dirty.map((r) => r.coolingRatio!.value)) - a.coolingW / b.coolingW)).toBeLessThan(0.01);
  });

  it('is not led astray by unsteady and standing rows among the clean ones', () => {
    const rows = made('medium', 'R134a', 0.65);
    const disturbed = rows.map((row, i) =>
      i % 9 === 0 ? { ...row, headPa: row.suctionPa! * 1.05 } : i % 13 === 0 ? { ...row, headPa: row.headPa! * 0.8 } : row,
    );
    const results = analyseLog(disturbed);
    expect(results.filter((r) => r.status === 'not_running').length).toBeGreaterThan(10);
    expect(results.filter((r) => r.status === 'not_steady').length).toBeGreaterThan(10);
    // Row by row as without them: how near either comes to what was put in is asked above.
    const alone = analyseLog(rows);
    const sound = results.flatMap((r, i) => (r.row.state === 'dirty' && r.status === 'ok' ? [[r, alone[i]!] as const] : []));
    expect(sound.length).toBeGreaterThan(20);
    for (const [r, same] of sound) expect(Math.abs(r.conductanceRatio!.value - same.conductanceRatio!.value)).toBeLessThan(0.005);
  });

  it('asks for ten minutes after a start whatever the logger interval', () => {
    const rows = made('medium', 'R134a', 1)
      .slice(0, 30)
      .map((row, i) => ({
        ...row,
        minute: i * 2,
        ...(i < 3 ? { headPa: row.suctionPa! * 1.05 } : {}),
      }));
    const statuses = analyseLog(rows).map((r) => r.status);
    expect(statuses.slice(0, 3)).toEqual(Array(3).fill('not_running'));
    expect(statuses.slice(3, 8)).toEqual(Array(5).fill('not_steady'));
    expect(statuses.slice(9)).not.toContain('not_running');
    expect(statuses.filter((s) => s === 'ok').length).toBeGreaterThan(15);
  });

  it('drops a clamp that fell off from both sides of the comparison', () => {
    const rows = made('medium', 'R134a', 0.65).map((row) => (row.state === 'dirty' ? { ...row, dischargeK: row.airInK } : row));
    const dirty = analyseLog(rows).filter((r) => r.row.state === 'dirty' && r.status === 'ok');
    expect(mean(dirty.map((r) => r.conductanceRatio!.value))).toBeCloseTo(0.65, NEAR);
  });

  it('has a word for every row it gives no ratio', () => {
    const rows = made('medium', 'R134a', 0.65).slice(78, 84);
    const without = rows.map((r) => ({ ...r, state: '' as const, minute: NaN }));
    expect(analyseLog(without).map((r) => r.status)).toEqual(Array(6).fill('no_clean_rows'));
    const status = (more: Partial<LogRow>) => analyseLog([...rows, { ...rows[0]!, minute: NaN, ...more }]).at(-1)!.status;
    expect(status({ headPa: undefined })).toBe('no_head');
    expect(status({ airInK: undefined })).toBe('no_air');
    expect(status({ headPa: 9e6 })).toBe('out_of_range');
  });

  it('keeps units apart', () => {
    const rows = [...made('medium', 'R134a', 0.65), ...made('low', 'R404A', 0.8).map((r) => ({ ...r, unit: 'B' }))];
    const of = (unit: string) =>
      mean(
        analyseLog(rows)
          .filter((r) => r.row.unit === unit && r.row.state === 'dirty' && r.status === 'ok')
          .map((r) => r.conductanceRatio!.value),
      );
    expect(of('A')).toBeCloseTo(0.65, NEAR);
    expect(of('B')).toBeCloseTo(0.8, NEAR);
  });
});

describe('the clean trend', () => {
  it('is the straight line through rows that lie on one, outliers or not', () => {
    const xs = Array.from({ length: 40 }, (_, i) => 290 + i * 0.5);
    const ys = xs.map((x, i) => 2 + 0.01 * x + (i % 11 === 5 ? 0.9 : 0));
    const t = cleanTrend(xs, ys, { slope: 0, slopeSd: 1, leastScatter: 1e-4 })!;
    expect(t.slope).toBeCloseTo(0.01, 3);
    expect(t.at(300).value).toBeCloseTo(5, 2);
  });

  it('leans on the expected slope where all rows share one temperature', () => {
    const t = cleanTrend([300, 300, 300], [1, 1.02, 0.98], { slope: 0.015, slopeSd: 0.01, leastScatter: 0.005 })!;
    expect(t.slope).toBeCloseTo(0.015, 9);
    expect(t.at(310).sd).toBeGreaterThan(t.at(300).sd);
  });
});
