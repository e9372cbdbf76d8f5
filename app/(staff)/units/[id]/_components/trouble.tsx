import { toLocalDate } from '@/lib/core/calendar/date-column';
import { Sheet } from '@/app/_ui/sheet';
import { State } from '@/app/_ui/state';
import { dayIn, dayWords } from '@/lib/core/calendar/when';
import { ASPECT_LABEL, gradeWords, type Aspect } from '@/lib/core/findings/grades';
import { URGENCY_LABEL, type Urgency } from '@/lib/core/tablet';
import { SettleFollowUp } from '../../_components/settle-follow-up';

type Props = {
  found: { aspect: Aspect; grade: string; at: Date }[];
  followUps: { id: string; what: string; urgency: string; dueOn: Date | null; createdAt: Date }[];
  timeZone: string;
  maySettle: boolean;
};

/** What stands wrong with the unit, before anything else is read of it. */
export function Trouble({ found, followUps, timeZone, maySettle }: Props) {
  if (found.length + followUps.length === 0) return null;
  return (
    <Sheet title="Stands open">
      <ul className="flex flex-col gap-2">
        {found.map((f) => {
          return (
            <li key={f.aspect}>
              <State shape="late" tone="alarm">
                {ASPECT_LABEL[f.aspect]}: {gradeWords(f)}
              </State>{' '}
              <span className="text-soft">at the last look, {dayIn(f.at.getTime(), timeZone)}</span>
              {f.aspect === 'condenser_fan' ? (
                <p className="text-sm">
                  It reads like a fouled coil, and cleaning will not help. Isolate the unit before touching the fan.
                </p>
              ) : null}
            </li>
          );
        })}
        {followUps.map((f) => (
          <li key={f.id}>
            <State shape="ask">Follow-up</State> {f.what}{' '}
            <span className="text-soft">
              {(URGENCY_LABEL[f.urgency as Urgency] ?? f.urgency).toLowerCase()}
              {f.dueOn ? `, by ${dayWords(toLocalDate(f.dueOn))}` : ''}, since {dayIn(f.createdAt.getTime(), timeZone)}
            </span>
            {maySettle ? <SettleFollowUp followUpId={f.id} what={f.what} /> : null}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
