/** Streams of random numbers from a seed: the same name and seed give the same stream on every machine. */

/** FNV-1a over UTF-16 code units: turns a name into 32 bits. */
function hash(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return h >>> 0;
}

export class RandomStream {
  private state: number;
  private spare: number | null = null;

  /** A stream by name, so that adding one thing to a simulation leaves all the others as they were. */
  constructor(seed: number, name = '') {
    this.state = (Math.imul(seed ^ hash(name), 0x9e3779b1) + 0x85ebca6b) >>> 0;
  }

  /** Uniform in [0, 1). Mulberry32 (Tommy Ettinger, public domain). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number from low to high, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  pick<T>(items: readonly T[]): T {
    const item = items[Math.floor(this.next() * items.length)];
    if (item === undefined) throw new RangeError('Nothing to pick from.');
    return item;
  }

  /** Standard normal; Box–Muller. */
  normal(mean = 0, sd = 1): number {
    if (this.spare !== null) {
      const z = this.spare;
      this.spare = null;
      return mean + sd * z;
    }
    const r = Math.sqrt(-2 * Math.log(1 - this.next()));
    const a = 2 * Math.PI * this.next();
    this.spare = r * Math.sin(a);
    return mean + sd * r * Math.cos(a);
  }

  exponential(mean: number): number {
    return -mean * Math.log(1 - this.next());
  }

  /** Gamma with shape and scale; Marsaglia and Tsang 2000. */
  gamma(shape: number, scale: number): number {
    if (!(shape > 0)) return 0;
    if (shape < 1) return this.gamma(shape + 1, scale) * Math.pow(1 - this.next(), 1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = this.normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(1 - this.next()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v * scale;
    }
  }

  /** A version 4 UUID of the stream: ids that stay the same from one seeding to the next. */
  uuid(): string {
    let hex = '';
    for (let i = 0; i < 4; i++)
      hex += Math.floor(this.next() * 4294967296)
        .toString(16)
        .padStart(8, '0');
    const variant = '89ab'[parseInt(hex[16] as string, 16) & 3];
    return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-4${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20)}`;
  }
}
