import { dayIn } from '@/lib/core/calendar/when';
import { ASPECT_INFO, gradeWords } from '@/lib/core/findings/grades';
import { ownText, type Me, type UnitOnFile } from '@/lib/core/tablet';

/** One line of the last visit: how the coil and the low side were, and what it read. The rest is a tap away. */
export function LastTime({ unit, timeZone, me }: { unit: UnitOnFile; timeZone: string; me: Me }) {
  const last = unit.past[0];
  if (!last) return <p className="text-soft">No earlier visit on file.</p>;
  const said = (['coil', 'scale', 'ice', 'drain'] as const).flatMap((aspect) => {
    const f = last.findings.find((x) => x.aspect === aspect && x.phase === 'found');
    return f ? [`${ASPECT_INFO[aspect].subject.toLowerCase()} ${gradeWords(f)}`] : [];
  });
  const read = last.readings.find((r) => r.phase !== 'before') ?? last.readings[0];
  const numbers = (['headPaGauge', 'condensingClampK', 'airInK', 'waterOutK', 'harvestMinutes', 'boxK'] as const).flatMap((f) => {
    const value = read?.values[f];
    return value === undefined ? [] : [`${WORD[f]} ${ownText(f, value, me)}`];
  });
  return (
    <p className="text-[0.95rem] leading-snug">
      <span className="text-soft">Last time, {dayIn(Date.parse(last.at), timeZone)}:</span>{' '}
      {[...said, ...numbers].join(' · ') || 'nothing written'}
    </p>
  );
}

const WORD = {
  headPaGauge: 'head',
  condensingClampK: 'bend',
  airInK: 'air',
  waterOutK: 'water out',
  harvestMinutes: 'harvest',
  boxK: 'box',
} as const;
