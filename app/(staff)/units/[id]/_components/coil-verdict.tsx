import Link from 'next/link';
import type { ReactNode } from 'react';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { GradeDrawing } from '@/app/(tablet)/round/_components/drawings/grade-drawing';
import { Loss } from '@/app/_ui/figures/loss';
import { KWH_PER_30_DAYS, moneyPer30Days, PERCENT } from '@/app/_ui/figures/measure';
import type { Look } from '@/app/_ui/states/state';
import { State } from '@/app/_ui/states/state';
import { daysBetween, describeRule, type LocalDate } from '@/lib/core/calendar';
import { dayDateWords, dayWords, momentIn } from '@/lib/core/calendar/when';
import type { CoilNow, CoilVerdict } from '@/lib/core/evidence/coil-now';
import type { UnitEvidenceShown } from '@/lib/core/evidence/shown';
import { gradeIndex, gradeLabel } from '@/lib/core/findings/grades';
import { counted } from '@/lib/core/wording/counted';

type Props = {
  now: CoilNow;
  evidence: UnitEvidenceShown;
  /** The coil's task: its rule, why its date stands where it does, and the visit it is booked on. */
  task: { id: string; rule: string; reason: string | null; onVisit: { id: string; startsAt: number } | null } | null;
  timeZone: string;
  book: string | null;
};

const LOOK: Record<CoilVerdict, Look> = {
  mend_fan: { shape: 'off', tone: 'alarm' },
  past_cleaning: { shape: 'late', tone: 'alarm' },
  clean_now: { shape: 'late', tone: 'alarm' },
  overdue: { shape: 'late', tone: 'alarm' },
  look_elsewhere: { shape: 'ask', tone: 'alarm' },
  too_late: { shape: 'ask', tone: 'ink' },
  in_order: { shape: 'done', tone: 'cold' },
  nothing_known: { shape: 'later', tone: 'soft' },
  by_water: { shape: 'later', tone: 'soft' },
};
/** Where a visit is what follows. */
const BOOKED_FOR: readonly CoilVerdict[] = ['mend_fan', 'past_cleaning', 'clean_now', 'overdue', 'look_elsewhere', 'too_late'];

const day = (d: LocalDate, today: LocalDate) => (d.slice(0, 4) === today.slice(0, 4) ? dayWords(d) : dayDateWords(d));

/** The one answer about a coil, and how what is on file fits together under it. */
export function CoilVerdictSheet({ now, evidence, task, timeZone, book }: Props) {
  const { today } = evidence;
  const look = LOOK[now.verdict];
  const [head, why] = headAndWhy(now, evidence);
  return (
    <section aria-label="The coil today" className="rounded-lg border-2 border-edge bg-sheet p-4 sm:p-5">
      <div className="flex flex-wrap items-start justify-between gap-x-6 gap-y-3">
        <div className="min-w-0 max-w-[70ch]">
          <h2 className="text-xl">
            <State shape={look.shape} tone={look.tone}>
              <span className="whitespace-normal">{head}</span>
            </State>
          </h2>
          <p className="mt-1 text-lg">{why}</p>
        </div>
        {task?.onVisit ? (
          <Link href={`/week/${task.onVisit.id}`} className="font-bold">
            Booked {momentIn(task.onVisit.startsAt, timeZone)}
          </Link>
        ) : book && BOOKED_FOR.includes(now.verdict) ? (
          <ButtonLink href={book} look="primary">
            Book a visit
          </ButtonLink>
        ) : null}
      </div>
      <dl className="mt-4 grid grid-cols-1 gap-x-8 gap-y-3 border-t border-line pt-4 sm:grid-cols-2 xl:grid-cols-4">
        {now.verdict === 'by_water' ? null : <Line name="Seen">{seenWords(now, today)}</Line>}
        <Line name="Read">{readWords(now, evidence)}</Line>
        <Line name="Believed today">{believed(now, evidence)}</Line>
        <Line name={now.verdict === 'by_water' ? 'Next water side check' : 'Next cleaning'}>
          {now.next && task ? (
            <>
              <b>{day(now.next.dueOn, today)}</b>, {describeRule(task.rule)}
              {now.passes ? (
                <span className="block text-sm">
                  {now.passes.name} has likely passed its limit about {day(now.passes.on, today)}.
                </span>
              ) : null}
            </>
          ) : (
            'None on file.'
          )}
        </Line>
      </dl>
      {evidence.stays ? <p className="mt-3 max-w-[75ch] text-sm">{evidence.stays}</p> : null}
      {evidence.washThrough ? (
        <p className="mt-3 max-w-[75ch] text-sm">
          <b>Old deposit.</b> {evidence.washThrough}
        </p>
      ) : null}
      {task?.reason ? (
        <details className="mt-3">
          <summary className="text-sm font-bold text-cold">Why this date</summary>
          <p className="mt-1 max-w-[75ch] text-sm">{task.reason}</p>
        </details>
      ) : null}
    </section>
  );
}

function Line({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div>
      <dt className="text-sm text-soft">{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

type HeadAndWhy = [head: string, why: ReactNode];

function headAndWhy(now: CoilNow, evidence: UnitEvidenceShown): HeadAndWhy {
  switch (now.verdict) {
    case 'mend_fan':
      return [
        'Mend the condenser fan first',
        'It is down as not turning. It reads like a fouled coil, and cleaning does not help. Isolate the unit before touching the fan.',
      ];
    case 'past_cleaning':
      return [
        'Cleaning did not bring it back',
        `It was left ${grade(now)}${onDay(now, evidence.today)}. Quote a deep clean or a new coil.`,
      ];
    case 'clean_now':
      return ['Clean it now', whyNow(now, evidence)];
    case 'overdue':
      return [
        `Cleaning is ${counted(now.next ? daysBetween(now.next.dueOn, evidence.today) : 0, 'day')} overdue`,
        lastSeen(now, evidence.today) ?? 'Nobody has looked at it yet.',
      ];
    case 'look_elsewhere':
      return ['Look elsewhere before the coil', evidence.latest?.estimate.sentence ?? ''];
    case 'too_late':
      return tooLate(now, evidence.today);
    case 'nothing_known':
      return ['Nobody has looked at this coil yet', 'It is taken to foul like others of its kind that stand where it stands.'];
    case 'by_water':
      return ['Cooled by water', 'Air tells nothing of its condenser. Compare condensing with the water leaving it, and with its own log.'];
    case 'in_order':
      return inOrder(now, evidence.today);
  }
}

const grade = ({ seen }: CoilNow): string => (seen ? gradeLabel('coil', seen.grade).toLowerCase() : '');

const lastSeen = (now: CoilNow, today: LocalDate): string | null =>
  now.seen && `Last seen ${grade(now)} on ${day(now.seen.on, today)}${cleaned(now.seen, today)}.`;

const onDay = ({ seen }: CoilNow, today: LocalDate): string => (seen ? ` on ${day(seen.on, today)}` : '');

const inOrder = (now: CoilNow, today: LocalDate): HeadAndWhy => [
  now.next ? `In order until ${day(now.next.dueOn, today)}` : 'In order',
  lastSeen(now, today) ?? 'Nothing speaks against the date that stands.',
];

/** The eye before the sum: what was seen, else what the reading says. */
function whyNow(now: CoilNow, { today, latest }: UnitEvidenceShown): string {
  const { seen, next } = now;
  if (!seen || seen.cleanedOn !== null || !(seen.grade === 'matted' || seen.grade === 'packed'))
    return `The reading of ${latest ? day(latest.on, today) : ''} says that the coil costs more than a cleaning, and it was not cleaned since.`;
  const late = next && next.dueOn > today ? ` Its date, ${day(next.dueOn, today)}, is too late.` : '';
  return `Seen ${grade(now)} on ${day(seen.on, today)} and not cleaned since.${late}`;
}

function tooLate({ passes, next }: CoilNow, today: LocalDate): HeadAndWhy {
  const until = next ? day(next.dueOn, today) : 'none';
  return [
    `Clean it before ${passes ? day(passes.on, today) : ''}`,
    `By then it has more likely than not passed one of its own limits (${passes?.name.toLowerCase() ?? ''}). The date that stands is ${until}: book it sooner, or read it again to know better.`,
  ];
}

const cleaned = ({ cleanedOn, on, phase }: NonNullable<CoilNow['seen']>, today: LocalDate) =>
  cleanedOn === null
    ? phase === 'left'
      ? ', after the work'
      : ''
    : cleanedOn === on
      ? ', and cleaned that day'
      : `, cleaned on ${day(cleanedOn, today)}`;

function seenWords({ seen }: CoilNow, today: LocalDate): ReactNode {
  if (!seen) return 'Nobody has looked yet.';
  return (
    <>
      <span className="mr-2 inline-block align-middle">
        <GradeDrawing aspect="coil" grade={gradeIndex('coil', seen.grade)} small />
      </span>
      <b>{gradeLabel('coil', seen.grade)}</b> on {day(seen.on, today)}
      {cleaned(seen, today)}.
    </>
  );
}

function readWords({ read }: CoilNow, { latest, today, readings }: UnitEvidenceShown): ReactNode {
  if (!read || !latest) return 'No reading yet.';
  if (read.aside || readings.some((r) => r.on === read.on && r.phase === read.phase && r.setAside !== null))
    return `That of ${day(read.on, today)} speaks of another cause, not of the coil, and is set aside.`;
  const { estimate: e } = latest;
  return (
    <>
      {e.status === 'ok' ? (
        <>
          <Loss of={e.conductanceLost} scale={PERCENT} none="No loss to be seen" /> lost on {day(read.on, today)}
          {read.phase === 'after' ? ', after cleaning' : ''}.
        </>
      ) : (
        <>That of {day(read.on, today)} can’t say.</>
      )}
      {read.cleanedSince ? <span className="block text-sm text-soft">Before its last cleaning: it tells how it was then.</span> : null}
    </>
  );
}

function believed(now: CoilNow, { todayLost, todayMoney, todayKwh, conditions, fouling }: UnitEvidenceShown): ReactNode {
  if (now.verdict === 'by_water') return 'Not estimated.';
  const { grades, readings, cleanings } = fouling.evidence;
  return (
    <>
      <Loss of={todayLost} scale={PERCENT} /> of its heat transfer lost
      {todayMoney ? (
        <>
          ; <Loss of={todayMoney} scale={moneyPer30Days(conditions.currency)} /> in 30 days
        </>
      ) : todayKwh ? (
        <>
          ; <Loss of={todayKwh} scale={KWH_PER_30_DAYS} /> in 30 days
        </>
      ) : null}
      .
      <span className="block text-sm text-soft">
        From {counted(grades, 'look')}, {counted(readings, 'reading')}, {counted(cleanings, 'cleaning')}.
      </span>
    </>
  );
}
