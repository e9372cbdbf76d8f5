/** A value on the heat scale with its band as a whisker; the figure stands beside it in words. */
export function RateBar({ of, most }: { of: { value: number; lo: number; hi: number }; most: number }) {
  const x = (v: number) => Math.max(0, Math.min(100, (100 * v) / most));
  const step = Math.min(5, 1 + Math.floor((4.999 * of.value) / most));
  const [lo, hi] = [x(of.lo), x(of.hi)];
  const whisker = `M${lo} 2.5V7.5M${lo} 5H${hi}M${hi} 2.5V7.5`;
  return (
    <svg viewBox="0 0 100 10" preserveAspectRatio="none" className="block h-3 w-full" aria-hidden="true" focusable="false">
      <rect x="0" y="1" width="100" height="8" fill="var(--sunk)" />
      <rect x="0" y="1" width={x(of.value)} height="8" fill={`var(--heat-${step})`} />
      {/* Paper under the ink: the whisker stays visible on the darkest bar. */}
      <path d={whisker} stroke="var(--sheet)" strokeWidth="4" fill="none" vectorEffect="non-scaling-stroke" />
      <path d={whisker} stroke="var(--ink)" strokeWidth="1.5" fill="none" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}
