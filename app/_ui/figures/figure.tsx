import { formatBand } from '@/lib/core/measures';
import { AS_IS, type Scale } from './measure';

type Banded = { value: number; lo: number; hi: number };

/** "12 % (8–17)": a figure with its unit and its band, rounded to the band. Without numbers it says so. */
export function Figure({
  of,
  scale = AS_IS,
  per = '',
  className = '',
}: {
  of: Banded | null | undefined;
  scale?: Scale;
  per?: string;
  className?: string;
}) {
  if (!of) return <span className={`text-soft ${className}`}>can’t say</span>;
  const ends = [scale.of(of.lo), scale.of(of.hi)].sort((a, b) => a - b) as [number, number];
  const text = formatBand(scale.of(of.value), ends[0], ends[1], `${scale.unit}${per}`, scale.most);
  const at = text.lastIndexOf(' (');
  if (at < 0) return <span className={className}>{text}</span>;
  return (
    <span className={className}>
      <b className="whitespace-nowrap">{text.slice(0, at)}</b> <span className="whitespace-nowrap text-soft">{text.slice(at + 1)}</span>
    </span>
  );
}
