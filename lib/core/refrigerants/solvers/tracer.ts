/** A solved point of a saturation curve: the numbers that a neighbour can be extrapolated from, all positive. */
export type TracePoint = { T: number; values: Float64Array };

/**
 * Solves a curve at any temperature by marching from the nearest solved neighbour, extrapolating in ln of the values
 * and halving the step where the solver fails or jumps to another root.
 */
export class Tracer {
  private readonly points: TracePoint[] = [];

  constructor(
    private readonly solve: (T: number, start: Float64Array) => Float64Array | undefined,
    first: TracePoint,
    /** Largest change of ln value between extrapolation and solution that still counts as the same root. */
    private readonly jump = 0.1,
  ) {
    const values = solve(first.T, first.values);
    if (!values) throw new Error(`The curve's first point at ${first.T} K was not solved`);
    this.points.push({ T: first.T, values });
  }

  /** The values at T, or undefined where the curve cannot be followed to. */
  at(T: number): Float64Array | undefined {
    for (let attempts = 0; attempts < 400; attempts++) {
      const near = this.nearest(T);
      if (near.T === T) return near.values;
      let target = T;
      for (let halvings = 0; ; halvings++) {
        const values = this.step(near, target);
        if (values) {
          this.points.push({ T: target, values });
          break;
        }
        if (halvings > 20) return undefined;
        target = near.T + (target - near.T) / 2;
      }
    }
    return undefined;
  }

  /** Highest temperature that can be reached, to within `resolution` K. */
  highest(resolution: number): TracePoint {
    let top = this.nearest(Infinity);
    for (let step = 2; step > resolution;) {
      const values = this.step(top, top.T + step);
      if (values) {
        top = { T: top.T + step, values };
        this.points.push(top);
      } else step /= 2;
    }
    return top;
  }

  private nearest(T: number, away = -1, from = 0): TracePoint {
    let best = this.points[0]!;
    let least = Infinity;
    for (const p of this.points) {
      if (Math.abs(p.T - from) <= away) continue;
      const distance = T === Infinity ? -p.T : Math.abs(p.T - T);
      if (distance < least) [best, least] = [p, distance];
    }
    return best;
  }

  private step(a: TracePoint, T: number): Float64Array | undefined {
    // The second point is kept at a distance like the step's: the slope between two near twins is noise.
    const b = this.nearest(T, 0.2 * Math.abs(T - a.T), a.T);
    const apart = a.T - b.T;
    const start = a.values.map((v, i) => (apart === 0 ? v : v * Math.exp(((T - a.T) / apart) * Math.log(v / b.values[i]!))));
    const values = this.solve(T, start);
    const same = values?.every((v, i) => Math.abs(Math.log(v / start[i]!)) < this.jump);
    return same ? values : undefined;
  }
}
