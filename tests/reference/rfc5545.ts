import { instantOf, localDate, parseRule, wallTimes, type LocalDateTime } from '@/lib/core/calendar';
import data from './data/rfc5545-rules.json';

export type Vector = { name: string; start: string; rule: string; except?: string[]; expect: string[] };
export const SOURCE = data.source;
export const ZONE = data.zone;
export const VECTORS: readonly Vector[] = data.rules;

const split = (text: string): LocalDateTime => ({ date: localDate(text.slice(0, 10)), time: text.slice(11) });
const joined = ({ date, time }: LocalDateTime): string => `${date}T${time}`;

/** Our wall-clock times of a vector, as many as it expects, its exceptions left out. */
export function expanded(v: Vector): string[] {
  const except = new Set(v.except ?? []);
  const times = wallTimes(parseRule(v.rule), split(v.start), v.expect.length + except.size).map(joined);
  return times.filter((t) => !except.has(t)).slice(0, v.expect.length);
}

export const instants = (times: readonly string[]): number[] => times.map((t) => instantOf(split(t).date, split(t).time, ZONE));
