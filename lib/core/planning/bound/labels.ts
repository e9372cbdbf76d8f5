/** Partial routes in flat arrays: many hundred thousand are made, so none is an object. */
export class Labels {
  count = 0;
  time: Float64Array;
  cost: Float64Array;
  load: Float64Array;
  job: Int32Array;
  option: Int32Array;
  parent: Int32Array;
  stops: Int32Array;
  dead: Uint8Array;
  /** Jobs that may not come next: visited and remembered, or out of reach. `words` numbers a label. */
  barred: Int32Array;

  constructor(
    readonly setWords: number,
    // Most searches of a small shop end with a handful: room for thousands took longer to clear than all their work.
    private room = 64,
  ) {
    this.time = new Float64Array(room);
    this.cost = new Float64Array(room);
    this.load = new Float64Array(room);
    this.job = new Int32Array(room);
    this.option = new Int32Array(room);
    this.parent = new Int32Array(room);
    this.stops = new Int32Array(room);
    this.dead = new Uint8Array(room);
    this.barred = new Int32Array(room * setWords);
  }

  /** Index of a fresh label, its fields yet to be filled. */
  make(): number {
    if (this.count === this.room) this.grow();
    this.dead[this.count] = 0;
    return this.count++;
  }

  private grow(): void {
    this.room *= 2;
    const larger = <T extends Float64Array | Int32Array | Uint8Array>(old: T, size: number): T => {
      const next = new (old.constructor as new (n: number) => T)(size);
      next.set(old as never);
      return next;
    };
    this.time = larger(this.time, this.room);
    this.cost = larger(this.cost, this.room);
    this.load = larger(this.load, this.room);
    this.job = larger(this.job, this.room);
    this.option = larger(this.option, this.room);
    this.parent = larger(this.parent, this.room);
    this.stops = larger(this.stops, this.room);
    this.dead = larger(this.dead, this.room);
    this.barred = larger(this.barred, this.room * this.setWords);
  }
}
