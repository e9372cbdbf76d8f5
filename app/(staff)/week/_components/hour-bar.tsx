import { wallClock, weekdayOf } from '@/lib/core/calendar';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';

const FROM = 5 * 60;
const TO = 22 * 60;
const share = (minutes: number) => (100 * (Math.min(TO, Math.max(FROM, minutes)) - FROM)) / (TO - FROM);
const clock = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

type Props = { startsAt: number; endsAt: number; timeZone: string; serviceHours: readonly WeeklyWindow[] };

/** The visit on the kitchen's day, 05:00–22:00: shaded where it can spare its equipment. */
export function HourBar({ startsAt, endsAt, timeZone, serviceHours }: Props) {
  const start = wallClock(timeZone, startsAt);
  // Counted from the start: a visit that ends at midnight ends on this day still.
  const ends = start.minutes + (endsAt - startsAt) / 60_000;
  const windows = serviceHours.filter((w) => w.weekday === weekdayOf(start.date)).map((w) => ({ from: clock(w.from), to: clock(w.to) }));
  const inside = serviceHours.length === 0 || windows.some((w) => w.from <= start.minutes && ends <= w.to);
  return (
    <span className="mt-1 block">
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" className="block h-1.5 w-full" aria-hidden="true" focusable="false">
        <rect x="0" y="2.5" width="100" height="1" className="fill-line" />
        {windows.map((w) => (
          <rect key={w.from} x={share(w.from)} y="0" width={share(w.to) - share(w.from)} height="6" className="fill-line" />
        ))}
        <rect
          x={share(start.minutes)}
          y="0.75"
          width={Math.max(1.5, share(ends) - share(start.minutes))}
          height="4.5"
          className={inside ? 'fill-cold' : 'fill-alarm'}
        />
      </svg>
      {inside ? null : <span className="block font-bold text-alarm">Outside their hours</span>}
    </span>
  );
}
