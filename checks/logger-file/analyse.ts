import { Z80, figure } from '../../lib/core/condenser/bands';
import { balance } from '../../lib/core/condenser/machine/balance';
import { meanT } from '../../lib/core/condenser/fluid/fluid';
import { conductanceFromRise, modelOf, type UnitModel } from '../../lib/core/condenser/machine/model';
import type { Figure } from '../../lib/core/condenser/types';
import { kindOf, loggedUnit } from './equipment';
import type { LogRow } from './rows';
import { believedSignals, causeOf, commonSignals, loggedMachine, valuesOf, type Logged, type LoggedCause, type Values } from './signals';
import { running } from './steady';
import { cleanTrend, type Trend } from './trend';

export const LOG_STATUSES = ['ok', 'not_running', 'not_steady', 'no_clean_rows', 'no_head', 'no_air', 'out_of_range'] as const;
export type LogStatus = (typeof LOG_STATUSES)[number];

/** What one row comes to. Ratios are against the same unit's clean rows at the same entering air temperature. */
export type LogResult = {
  row: LogRow;
  status: LogStatus;
  /** Mean of bubble and dew, K. */
  condensingK?: number;
  riseK?: number;
  conductanceRatio?: Figure;
  powerRatio?: Figure;
  coolingRatio?: Figure;
  /** Likeliest cause, where it was asked for: it takes longer. */
  cause?: LoggedCause;
};

export type LogOptions = { causes?: boolean };

type Trends = { lnK: Trend; lnPower: Trend; lnCooling: Trend; lnRise: Trend };

/** All rows of a log, any units mixed; results in the order of the rows. */
export function analyseLog(rows: readonly LogRow[], options: LogOptions = {}): LogResult[] {
  const groups = new Map<string, number[]>();
  rows.forEach((row, i) => {
    const key = `${row.unit}\u0000${row.refrigerant}`;
    const group = groups.get(key);
    if (group) group.push(i);
    else groups.set(key, [i]);
  });
  const results = new Array<LogResult>(rows.length);
  for (const indices of groups.values()) {
    const minute = (i: number) => (rows[i] as LogRow).minute;
    // One unreadable timestamp leaves the unit in the order of the file.
    const timed = indices.every((i) => !Number.isNaN(minute(i)));
    const inTime = timed ? [...indices].sort((a, b) => minute(a) - minute(b) || a - b) : indices;
    const own = inTime.map((i) => rows[i] as LogRow);
    unitResults(own, options).forEach((result, k) => (results[inTime[k] as number] = result));
  }
  return results;
}

function unitResults(rows: readonly LogRow[], options: LogOptions): LogResult[] {
  const kind = kindOf(rows);
  const { refrigerant } = rows[0] as LogRow;
  const { unit, profile } = loggedUnit(kind, refrigerant);
  const model = modelOf(unit, { profile });
  const logged = loggedMachine(kind, refrigerant);
  if (!model || !logged) return rows.map((row) => ({ row, status: 'out_of_range' }));
  const condensing = rows.map((r) => (r.headPa === undefined ? NaN : meanT(model.fluid, r.headPa)));
  const rises = rows.map((r, i) => (condensing[i] as number) - (r.airInK ?? NaN));
  const states = running(rows, rises);
  const believed = rows.map((r, i) => (states[i] === 'running' ? believedSignals(logged, r) : 0));
  const clean = rows.flatMap((row, i) =>
    row.state === 'clean' && states[i] === 'running' ? [{ row, signals: believed[i] as number }] : [],
  );
  const usual = commonSignals(clean.map((c) => c.signals));
  const trends = new Map<number, Trends | null>();
  const trendsFor = (mask: number) => {
    let found = trends.get(mask);
    if (found === undefined) trends.set(mask, (found = fitted({ model, logged, boxK: unit.boxSetPointK }, clean, mask)));
    return found;
  };
  return rows.map((row, i): LogResult => {
    const condensingK = condensing[i] as number;
    const riseK = rises[i] as number;
    const soFar = {
      row,
      ...(Number.isFinite(condensingK) ? { condensingK } : {}),
      ...(Number.isFinite(riseK) ? { riseK } : {}),
    };
    if (row.headPa === undefined) return { ...soFar, status: 'no_head' };
    if (row.airInK === undefined) return { ...soFar, status: 'no_air' };
    if (!Number.isFinite(riseK)) return { ...soFar, status: 'out_of_range' };
    const state = states[i];
    if (state !== 'running') return { ...soFar, status: state ?? 'out_of_range' };
    if (clean.length === 0) return { ...soFar, status: 'no_clean_rows' };
    const mask = (believed[i] as number) & usual;
    const values = valuesOf(logged, row, mask);
    const against = trendsFor(mask);
    if (!values || !against) return { ...soFar, status: 'out_of_range' };
    const cause = options.causes ? causeOf(logged, row, mask, cleanOf(logged, against, row.airInK)) : null;
    return { ...soFar, status: 'ok', ...ratios(values, against, row.airInK), ...(cause ? { cause } : {}) };
  });
}

/** How the model expects clean values to move with entering air, per kelvin; logs that span little lean on it. */
function expectedSlopes(model: UnitModel, boxK: number) {
  const k = conductanceFromRise(model, model.profile.cleanRiseK);
  const [a, b] = [-5, 5].map((d) => balance(model, k, { airK: model.profile.designAirK + d - 5, boxK }));
  if (a?.status !== 'ok' || b?.status !== 'ok') return { power: 0.015, cooling: -0.007 };
  return { power: Math.log(b.powerW / a.powerW) / 10, cooling: Math.log(b.coolingW / a.coolingW) / 10 };
}

type CleanRow = { row: LogRow; signals: number };

type Given = { model: UnitModel; logged: Logged; boxK: number };

function fitted({ model, logged, boxK }: Given, clean: readonly CleanRow[], mask: number): Trends | null {
  const xs: number[] = [];
  const ys: Values[] = [];
  for (const { row, signals } of clean) {
    if ((signals & mask) !== mask) continue;
    const values = valuesOf(logged, row, mask);
    if (!values) continue;
    xs.push(row.airInK as number);
    ys.push(values);
  }
  const expected = expectedSlopes(model, boxK);
  const fit = (read: (v: Values) => number, slope: number, slopeSd: number, leastScatter: number) =>
    cleanTrend(xs, ys.map(read), { slope, slopeSd, leastScatter });
  const lnK = fit((v) => v.lnK, 0, 0.004, 0.01);
  const lnPower = fit((v) => v.lnPower, expected.power, 0.008, 0.005);
  const lnCooling = fit((v) => v.lnCooling, expected.cooling, 0.008, 0.005);
  const lnRise = fit((v) => Math.log(v.riseK), 0, 0.004, 0.01);
  return lnK && lnPower && lnCooling && lnRise ? { lnK, lnPower, lnCooling, lnRise } : null;
}

/** Fixed sensor error of a logger, K of rise: the same on clean and dirty rows, so only its uneven part counts. */
const SENSOR_BIAS_K = 1;
/** Model error of a change, relative to the change, beside a little of its own. */
const CHANGE_SD = { power: 0.2, cooling: 0.25, conductance: 0.05 };
const LEAST_SD = 0.01;

/** The clean rise at design load that the unit's clean rows come to. */
function cleanOf({ machine }: Logged, t: Trends, airK: number) {
  const { value, sd } = t.lnK.at(airK);
  return { riseK: machine.designHeat / Math.exp(value), sd: Math.hypot(t.lnK.scatter, sd, LEAST_SD) };
}

function ratios(v: Values, t: Trends, airK: number) {
  const cleanRise = Math.exp(t.lnRise.at(airK).value);
  const bias = SENSOR_BIAS_K * Math.abs(1 / v.riseK - 1 / cleanRise);
  const ratio = (own: number, trend: Trend, ...more: number[]): Figure => {
    const expected = trend.at(airK);
    const change = own - expected.value;
    const sd = Math.hypot(trend.scatter, expected.sd, LEAST_SD, ...more.map((m) => m));
    return figure(Math.exp(change), Math.exp(change - Z80 * sd), Math.exp(change + Z80 * sd));
  };
  const off = (own: number, trend: Trend, share: number) => share * Math.abs(own - trend.at(airK).value);
  return {
    conductanceRatio: ratio(v.lnK, t.lnK, bias, off(v.lnK, t.lnK, CHANGE_SD.conductance)),
    powerRatio: ratio(v.lnPower, t.lnPower, off(v.lnPower, t.lnPower, CHANGE_SD.power)),
    coolingRatio: ratio(v.lnCooling, t.lnCooling, off(v.lnCooling, t.lnCooling, CHANGE_SD.cooling)),
  };
}
