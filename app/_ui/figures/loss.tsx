import { Figure } from './figure';
import type { Scale } from './measure';

type Banded = { value: number; lo: number; hi: number };

/**
 * What a fouled coil costs, which is never less than nothing: where the band reaches down to none, how much it is at most.
 * "12 % (8–17)", "at most 3 %", "none to be seen".
 */
export function Loss({ of, scale, none = 'none to be seen' }: { of: Banded | null | undefined; scale: Scale; none?: string }) {
  if (!of || of.lo > 0) return <Figure of={of} scale={scale} />;
  const most = scale.of(of.hi);
  const written = atMost(most, scale.most ?? scale.decimals);
  if (written === null) return <span>{none}</span>;
  return (
    <span>
      at most{' '}
      <b className="whitespace-nowrap">
        {written}
        {scale.unit ? ` ${scale.unit}` : ''}
      </b>
    </span>
  );
}

/** An upper end, rounded up so that it stays one; null for nothing. */
function atMost(value: number, decimals: number): string | null {
  if (!(value > 0)) return null;
  const step = 10 ** -Math.min(decimals, value >= 10 ? 0 : decimals);
  return String(Number((Math.ceil(value / step - 1e-9) * step).toFixed(6)));
}
