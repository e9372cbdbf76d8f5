import { fixedPrice } from '../../lib/core/planning/model/leave';
import type { Model, StopView } from '../../lib/core/planning/model/model';
import { hasTriangle } from '../../lib/core/planning/model/triangle';
import type { TourInstance } from './tsplib';

/** One vehicle without windows, starting and ending at the first place: a travelling-salesman tour. */
export function tourModel(instance: TourInstance): Model {
  const n = instance.ids.length;
  const { matrix } = instance;
  const view: StopView = {
    allowed: 1,
    opens: [0],
    closes: [Infinity],
    itemCost: [0],
    visitCost: 0,
    promised: Infinity,
    latePrice: 0,
    step: 0,
  };
  let longest = 0;
  let whole = true;
  for (const distance of matrix) {
    longest = Math.max(longest, distance);
    whole &&= Number.isInteger(distance);
  }
  return {
    places: n,
    // Time plays no part: leaving it out keeps every insertion possible.
    time: new Float64Array(n * n),
    drive: matrix,
    jobs: Array.from({ length: n - 1 }, (_, j) => ({
      place: j + 1,
      items: 1,
      all: 1,
      setup: 0,
      minutes: [0],
      demand: 0,
      brings: [1],
      bundles: [1],
      leave: fixedPrice(2 * n * longest + 1),
      firstRow: j,
    })),
    shifts: [
      {
        startPlace: 0,
        endPlace: 0,
        from: 0,
        to: Infinity,
        hardTo: Infinity,
        overtimePrice: 0,
        capacity: Infinity,
        kind: 0,
      },
    ],
    views: [Array.from({ length: n - 1 }, () => view)],
    rows: n - 1,
    triangle: hasTriangle(matrix, n),
    wholeCosts: whole,
  };
}
