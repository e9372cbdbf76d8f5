import type { Around, Faults, Machine } from './machine';
import { SOUND } from './machine';
import { run, type Running } from './solve';

/** What is so, for one machine with one reading. Powers W, energies kWh a day, temperatures K, pressures Pa above the air's. */
export type Truth = {
  /** Part of heat rejected per kelvin above the air at the face that is gone, whatever took it, at the reading. */
  conductanceLost: number;
  /** On the hot day with the box at its set point, against the same machine sound; null where it would not stand (trips). */
  coolingLost: number | null;
  /** For the duty of a usual day, compressor and condenser fan; null where the machine would not stand. */
  extraKwhPerDay: number | null;
  cannotKeepUp: boolean;
  dischargeNowK: number | null;
  dischargeCleanK: number | null;
  headNowPaGauge: number | null;
  headCleanPaGauge: number | null;
  /** For the reader of tables: what the machine truly did at the reading. */
  coolingW: number;
  powerW: number;
  condensingK: number;
  evaporatingK: number;
  coilAirK: number;
  imbalance: number;
};

export type Days = { hotK: number; usualK: number; boxK: number; cleanRunShare: number };

const electric = (r: Running) => r.powerW + r.fanW;

export function truthOf(m: Machine, faults: Faults, now: Running, around: Around, days: Days, airPa: number): Truth | null {
  const free = { ...m, holdK: undefined };
  const held = m.holdK !== undefined && now.dewK <= m.holdK + 0.01;
  const at = held ? { roomK: days.hotK, boxK: days.boxK } : around;
  const there = held ? run(free, faults, at) : now;
  const soundThere = run(free, SOUND, at);
  const hot = { roomK: days.hotK, boxK: days.boxK };
  const usual = { roomK: days.usualK, boxK: days.boxK };
  const soundHot = run(m, SOUND, hot);
  const soundUsual = run(m, SOUND, usual);
  if (!there || !soundThere || !soundHot || !soundUsual) return null;
  const hotNow = run(m, faults, hot);
  const usualNow = run(m, faults, usual);
  let extra: number | null = null;
  let cannotKeepUp = false;
  if (usualNow) {
    const wanted = (days.cleanRunShare * soundUsual.coolingW) / usualNow.coolingW;
    cannotKeepUp = wanted > 1;
    extra = (24 / 1000) * (Math.min(1, wanted) * electric(usualNow) - days.cleanRunShare * electric(soundUsual));
  }
  return {
    conductanceLost: 1 - there.conductance / soundThere.conductance,
    coolingLost: hotNow ? 1 - hotNow.coolingW / soundHot.coolingW : null,
    extraKwhPerDay: extra,
    cannotKeepUp,
    dischargeNowK: hotNow?.dischargeK ?? null,
    dischargeCleanK: soundHot.dischargeK,
    headNowPaGauge: hotNow ? hotNow.headPa - airPa : null,
    headCleanPaGauge: soundHot.headPa - airPa,
    coolingW: now.coolingW,
    powerW: now.powerW,
    condensingK: now.middleK,
    evaporatingK: now.evaporatingK,
    coilAirK: now.coilAirK,
    imbalance: now.imbalance,
  };
}
