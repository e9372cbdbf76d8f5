import { describeRule } from '@/lib/core/calendar';

const PLAIN = /^every (\d+) weeks?$/;

/** "7 → 8 weeks" where both are plain intervals, else both rules in full. */
export function fromTo(from: string, to: string): string {
  const [a, b] = [describeRule(from), describeRule(to)];
  if (from === to) return b;
  const [was, is] = [PLAIN.exec(a), PLAIN.exec(b)];
  return was && is ? `${was[1]} → ${is[1]} ${is[1] === '1' ? 'week' : 'weeks'}` : `${a} → ${b}`;
}
