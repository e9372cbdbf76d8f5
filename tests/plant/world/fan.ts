/** Air flow as a part of nominal where a fan's curve meets the resistance of its path. */
export type Fan = {
  /** Free delivery as a multiple of nominal flow. */
  free: number;
  /** Power of flow in the path's resistance. */
  power: number;
  /** What natural draught moves when the fan stands still, as a part of nominal. */
  still: number;
  watts: number;
};

/** Pressure of the fan falls with the square of flow; fan laws for its speed. Dead below a tenth of its speed. */
export function flowOf(fan: Fan, speed: number, resistance: number): number {
  if (speed < 0.1) return fan.still / Math.sqrt(resistance);
  const shutOff = 1 / (1 - 1 / fan.free ** 2);
  let lo = 0;
  let hi = fan.free * speed;
  for (let i = 0; i < 40; i++) {
    const v = (lo + hi) / 2;
    const left = shutOff * (speed ** 2 - (v / fan.free) ** 2) - resistance * v ** fan.power;
    if (left > 0) lo = v;
    else hi = v;
  }
  return Math.max(fan.still / Math.sqrt(resistance), (lo + hi) / 2);
}
