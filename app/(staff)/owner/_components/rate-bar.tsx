/** A value on the heat scale with its band as a whisker; the figure stands beside it in words. */
export function RateBar({ of, most }: { of: { value: number; lo: number; hi: number }; most: number }) {
  const x = (v: number) => Math.max(0, Math.min(100, (100 * v) / most));
  const step = Math.min(5, 1 + Math.floor((4.999 * of.value) / most));
  return (
    <svg viewBox="0 0 100 10" preserveAspectRatio="none" className="block h-3 w-full" aria-hidden="true" focusable="false">
      <rect x="0" y="1" width="100" height="8" fill="var(--sunk)" />
      <rect x="0" y="1" width={x(of.value)} height="8" fill={`var(--heat-${step})`} />
      <line x1={x(of.lo)} x2={x(of.hi)} y1="5" y2="5" stroke="var(--ink)" strokeWidth="1.4" vectorEffect="non-scaling-stroke" />
      <line x1={x(of.lo)} x2={x(of.lo)} y1="2.5" y2="7.5" stroke="var(--ink)" strokeWidth="1.4" vectorEffect="non-scaling-stroke" />
      <line x1={x(of.hi)} x2={x(of.hi)} y1="2.5" y2="7.5" stroke="var(--ink)" strokeWidth="1.4" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}
