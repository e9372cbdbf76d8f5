/** A stream of chance of the plant's own: xorshift on 32 bits, begun from a hash of the names given. */
export class Chance {
  private state: number;

  constructor(...names: (string | number)[]) {
    let hash = 2166136261;
    for (const letter of names.join('|')) hash = Math.imul(hash ^ letter.charCodeAt(0), 16777619);
    this.state = (hash ^ (hash >>> 15)) >>> 0 || 88172645;
    for (let i = 0; i < 12; i++) this.unit();
  }

  /** 0 ≤ x < 1 */
  unit(): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x >>> 0;
    return this.state / 4294967296;
  }

  between(lo: number, hi: number): number {
    return lo + (hi - lo) * this.unit();
  }

  normal(mean = 0, sd = 1): number {
    const r = Math.sqrt(-2 * Math.log(1 - this.unit()));
    return mean + sd * r * Math.cos(2 * Math.PI * this.unit());
  }

  /** About one, log-normal. */
  about(sd: number): number {
    return Math.exp(this.normal(0, sd));
  }

  yes(probability: number): boolean {
    return this.unit() < probability;
  }

  of<T>(list: readonly T[]): T {
    const found = list[Math.floor(this.unit() * list.length)];
    if (found === undefined) throw new Error('Nothing to choose from');
    return found;
  }
}
