import { fixedPrice } from '../../lib/core/planning/model/leave';
import type { Model, StopView } from '../../lib/core/planning/model/model';
import { hasTriangle } from '../../lib/core/planning/model/triangle';
import { InstanceError } from './parse-error';
import type { VrptwInstance } from './solomon';

export interface VrptwOptions {
  /** Most vehicles; as many as customers if not given here or in the file. */
  readonly vehicles?: number;
  /** Load a vehicle; unlimited if not given here or in the file. */
  readonly capacity?: number;
  /**
   * Cut distances after this many decimals, the convention of most published optima
   * (Kohl et al. 1999 and after use one). Everything is then counted in whole units of
   * that decimal, so that no rounding error can open or shut a window.
   */
  readonly truncate?: number;
}

export interface VrptwModel {
  readonly model: Model;
  /** Model cost units in one distance unit. */
  readonly scale: number;
  /** Cost of leaving one customer out: dearer than any plan that serves all. */
  readonly leftOut: number;
}

/** Compiles an instance; total distance is the objective, unused vehicles cost nothing. */
export function vrptwModel(instance: VrptwInstance, options: VrptwOptions = {}): VrptwModel {
  const { rows } = instance;
  const n = rows.length;
  const scale = options.truncate === undefined ? 1 : 10 ** options.truncate;
  const whole = options.truncate !== undefined;
  if (whole && rows.some((row) => [row.ready, row.due, row.service].some((t) => Math.abs(t * scale - Math.round(t * scale)) > 1e-6)))
    throw new InstanceError('Windows and service times have more decimals than distances are cut to; raise --truncate.');
  const time = new Float64Array(n * n);
  let longest = 0;
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const straight = Math.hypot(rows[i]!.x - rows[j]!.x, rows[i]!.y - rows[j]!.y) * scale;
      time[i * n + j] = whole ? Math.floor(straight + 1e-9) : straight;
      longest = Math.max(longest, straight);
    }
  const tick = (value: number): number => (whole ? Math.round(value * scale) : value * scale);
  const leftOut = 2 * n * longest + scale;
  const depot = rows[0]!;
  const fleet = Math.min(n - 1, options.vehicles ?? instance.vehicles ?? n - 1);
  const capacity = options.capacity ?? instance.capacity ?? Infinity;
  const views: StopView[] = rows.slice(1).map((row) => ({
    allowed: 1,
    opens: [tick(row.ready)],
    // A window bounds the start of service, so that work may run past its end.
    closes: [tick(row.due) + tick(row.service)],
    itemCost: [0],
    visitCost: 0,
    promised: Infinity,
    latePrice: 0,
    step: 0,
  }));
  const shift = {
    startPlace: 0,
    endPlace: 0,
    from: tick(depot.ready),
    to: tick(depot.due),
    hardTo: tick(depot.due),
    overtimePrice: 0,
    capacity,
    kind: 0,
  };
  const model: Model = {
    places: n,
    time,
    drive: time,
    jobs: rows.slice(1).map((row, j) => ({
      place: j + 1,
      items: 1,
      all: 1,
      setup: 0,
      minutes: [tick(row.service)],
      demand: row.demand,
      brings: [1],
      bundles: [1],
      leave: fixedPrice(leftOut),
      firstRow: j,
    })),
    shifts: Array.from({ length: fleet }, () => shift),
    views: Array.from({ length: fleet }, () => views),
    rows: n - 1,
    triangle: hasTriangle(time, n),
    wholeCosts: whole,
  };
  return { model, scale, leftOut };
}
