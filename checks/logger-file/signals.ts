import { see, type Seen } from '../../lib/core/condenser/machine/inverse';
import type { UnitModel } from '../../lib/core/condenser/machine/model';
import type { Known, Resolved } from '../../lib/core/condenser/readings/resolve';
import type { LogRow } from './rows';

/** Suction and line temperatures, as bits: which of them a row holds. */
const SIGNALS = ['suctionPa', 'liquidK', 'suctionLineK', 'dischargeK'] as const;
const SUCTION_LINE_BIT = 1 << 2;
const DISCHARGE_BIT = 1 << 3;
/** A signal counts for comparing with clean rows when most of these have it too. */
const MOSTLY = 0.8;

export type Values = { lnK: number; lnPower: number; lnCooling: number; riseK: number };

/** Signals that a running row holds and that can be believed: a clamp that fell off is as good as absent. */
export function believedSignals(model: UnitModel, row: LogRow, boxK: number): number {
  const held = SIGNALS.reduce((mask, s, bit) => (row[s] === undefined ? mask : mask | (1 << bit)), 0);
  if (!(held & (SUCTION_LINE_BIT | DISCHARGE_BIT))) return held;
  const { used } = seen(model, row, held, boxK);
  return held & ~(used.suctionLine ? 0 : SUCTION_LINE_BIT) & ~(used.discharge ? 0 : DISCHARGE_BIT);
}

/** Signals that most of the rows have. */
export function commonSignals(masks: readonly number[]): number {
  return SIGNALS.reduce((common, _, bit) => {
    const share = masks.filter((m) => m & (1 << bit)).length / Math.max(1, masks.length);
    return share >= MOSTLY ? common | (1 << bit) : common;
  }, 0);
}

/** Conductance, power and cooling from the signals in the mask alone, so that rows compare like with like. */
export function valuesOf(model: UnitModel, row: LogRow, mask: number, boxK: number): Values | null {
  const s = seen(model, row, mask, boxK);
  const values = {
    lnK: Math.log(s.conductanceWK),
    lnPower: Math.log(s.cycle.power),
    lnCooling: Math.log(s.cycle.cooling),
    riseK: s.riseK,
  };
  return Object.values(values).every(Number.isFinite) ? values : null;
}

function seen(model: UnitModel, row: LogRow, mask: number, boxK: number): Seen {
  const known = (value: number): Known => ({ value, sd: 0, measured: true, ownShare: 0 });
  const signal = (bit: number) => {
    const value = mask & (1 << bit) ? row[SIGNALS[bit] as (typeof SIGNALS)[number]] : undefined;
    return value === undefined ? undefined : known(value);
  };
  const resolved: Resolved = {
    head: { by: 'gauge', ...known(row.headPa ?? NaN) },
    airK: known(row.airInK ?? NaN),
    suctionPa: signal(0),
    liquidLineK: signal(1),
    suctionLineK: signal(2),
    dischargeLineK: signal(3),
    boxK: known(boxK),
    superheatK: known(model.superheatK),
    subcoolingK: known(model.subcoolingK),
  };
  return see(model, resolved);
}
