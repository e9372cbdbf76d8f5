import { toLocalDate } from '@/lib/core/calendar/date-column';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Sheet } from '@/app/_ui/page/sheet';
import { State, type Shape } from '@/app/_ui/states/state';
import { dayWords } from '@/lib/core/calendar/when';
import { counted } from '@/lib/core/wording/counted';
import { SettleJob } from '../../units/_components/settle-job';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type QuoteFor = 'sent' | 'wanted' | null;
type Matter = { unitId: string; unit: string; kitchen: string; customer: string };
type Change = { id: string; reason: string; unit: { id: string; name: string }; kitchen: { name: string; customer: string } };
type Late = {
  id: string;
  what: string;
  dueOn: Date | null;
  unitId: string;
  unit: { name: string; kitchen: { name: string; customer: { name: string } } };
};
type Props = {
  changes: Change[];
  unread: number;
  coils: (Matter & { grade: string; quote: QuoteFor })[];
  fans: (Matter & { since: Date; quote: QuoteFor })[];
  drains: (Matter & { times: number; dates: Date[] })[];
  work: { late: Late[]; quotes: number; unquoted: number };
  today: string;
  mayDecide: boolean;
  maySettle: boolean;
};

const QUOTE_FOR = { sent: 'The quote was sent: chase the answer.', wanted: 'A quote is asked for and not sent.' } as const;
const aboutQuote = (quote: QuoteFor) => (quote ? QUOTE_FOR[quote] : 'No quote yet.');
const day = (d: Date) => dayWords(toLocalDate(d));

/** What waits for the owner's word, worst first; each opens to its evidence. */
export function Decisions({ changes, unread, coils, fans, drains, work, mayDecide, maySettle }: Props) {
  const nothing = unread + coils.length + fans.length + drains.length + work.late.length === 0;
  return (
    <Sheet title={<span id="decide">Decide today</span>} className="scroll-mt-4">
      {nothing ? (
        <p className="text-soft">
          Nothing waits for you. Changes to rules, dead fans, coils past saving and drains that keep stopping will stand here.
        </p>
      ) : null}
      <div className="flex flex-col gap-5">
        <Group
          title="Dead condenser fan"
          shape="off"
          tone="alarm"
          show={fans.length > 0}
          note="A dead fan looks like a fouled coil; cleaning will not help. Isolate the unit before touching the fan."
        >
          {fans.map((f) => (
            <Item key={f.unitId} of={f}>
              Since {day(f.since)}. {aboutQuote(f.quote)}
            </Item>
          ))}
        </Group>
        <Group
          title="Coil past saving"
          shape="late"
          tone="alarm"
          show={coils.length > 0}
          note="Still closed after each of the last two cleanings. Clean less often and quote a new coil, or the unit."
        >
          {coils.map((c) => (
            <Item key={c.unitId} of={c}>
              Left {c.grade} twice running. {aboutQuote(c.quote)}
            </Item>
          ))}
        </Group>
        <Group
          title="Drain that keeps stopping"
          shape="ask"
          tone="ink"
          show={drains.length > 0}
          note="Look at pitch, trap and heater, not only at the blockage: pan ice starts here."
        >
          {drains.map((d) => (
            <Item key={d.unitId} of={d}>
              {d.times} times within a year, last {day(d.dates.at(-1) as Date)}.
            </Item>
          ))}
        </Group>
        <Group
          title={`Rule changes to look at (${unread})`}
          shape="now"
          tone="cold"
          show={unread > 0}
          note="They hold already. Keep them, overrule them or lock the rule."
        >
          {changes.map((c) => (
            <Item key={c.id} of={{ unitId: c.unit.id, unit: c.unit.name, kitchen: c.kitchen.name, customer: c.kitchen.customer }}>
              {c.reason}
            </Item>
          ))}
          <li className="pt-1">
            <ButtonLink href="/rules">{mayDecide ? 'Go through them' : 'See them all'}</ButtonLink>
          </li>
        </Group>
        <Group title="Promised and not done" shape="late" tone="alarm" show={work.late.length > 0}>
          {work.late.slice(0, 6).map((w) => (
            <Item
              key={w.id}
              of={{ unitId: w.unitId, unit: w.unit.name, kitchen: w.unit.kitchen.name, customer: w.unit.kitchen.customer.name }}
            >
              {w.what}, by {w.dueOn ? day(w.dueOn) : 'soon'}.
              {maySettle ? <SettleJob jobId={w.id} what={`${w.what}, ${w.unit.name}`} /> : null}
            </Item>
          ))}
        </Group>
        {work.quotes + work.unquoted > 0 ? (
          <p className="text-sm text-soft">
            {[
              work.quotes > 0 ? `${counted(work.quotes, 'quote waits', 'quotes wait')} for an answer` : '',
              work.unquoted > 0 ? `${counted(work.unquoted, 'job waits', 'jobs wait')} for a quote` : '',
            ]
              .filter(Boolean)
              .join(', ')}
            . <Link href="/jobs">Jobs</Link>
          </p>
        ) : null}
      </div>
    </Sheet>
  );
}

function Group({
  title,
  shape,
  tone,
  show,
  note,
  children,
}: {
  title: string;
  shape: Shape;
  tone: 'alarm' | 'ink' | 'cold';
  show: boolean;
  note?: string;
  children: ReactNode;
}) {
  if (!show) return null;
  return (
    <section aria-label={title}>
      <h3>
        <State shape={shape} tone={tone}>
          {title}
        </State>
      </h3>
      {note ? <p className="text-sm text-soft">{note}</p> : null}
      <ul className="mt-1 flex flex-col gap-2">{children}</ul>
    </section>
  );
}

function Item({ of, children }: { of: Matter; children: ReactNode }) {
  return (
    <li className="border-l-2 border-line pl-3">
      <Link href={`/units/${of.unitId}#evidence`} className="font-bold">
        {of.unit}
      </Link>
      , {kitchenInFull(of)}
      <div className="text-sm">{children}</div>
    </li>
  );
}
