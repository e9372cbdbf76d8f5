import Link from 'next/link';
import type { ReactNode } from 'react';
import { Figure } from '@/app/_ui/figures/figure';
import { KWH_PER_30_DAYS, moneyPer30Days, PERCENT } from '@/app/_ui/figures/measure';
import type { Figure as Banded } from '@/lib/core/condenser';
import { notApartFrom } from '@/lib/core/owner/ties';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';
import { counted } from '@/lib/core/wording/counted';
import type { KitchenLine } from './kitchen-table';
import { leftOut } from './left-out';

type Props = {
  kitchens: KitchenLine[];
  energy: Banded | null;
  money: Banded | null;
  currency: string;
  /** All kitchens are on this page. */
  whole: boolean;
  /** Of these, so many that nobody has booked yet; the others stand on a visit. */
  overdue: { tasks: number; kitchens: number; toBook: number };
  late: { tasks: number; days: number };
  toDecide: { failing: number; changes: number; late: number };
};

/** The owner's questions, each answered by one figure that opens to its evidence. */
export function Answers({ kitchens, energy, money, currency, whole, overdue, late, toDecide }: Props) {
  const matters = toDecide.failing + toDecide.changes + toDecide.late;
  const without = leftOut({ unseen: sum(kitchens, 'unseen'), water: sum(kitchens, 'water') });
  const unpriced = kitchens.filter((k) => k.energy && !k.money).length;
  return (
    <dl className="mb-6 grid grid-cols-2 overflow-hidden rounded-lg border border-line bg-sheet xl:grid-cols-[1.35fr_1.35fr_1fr_1fr]">
      <Fastest ranked={kitchens.flatMap(believed)} whole={whole} />
      <Answer
        wide
        question={`Fouling costs in 30 days${whole ? '' : ', kitchens below'}`}
        figure={<Figure of={money ?? energy} scale={money ? moneyPer30Days(currency) : KWH_PER_30_DAYS} />}
      >
        {energy && money ? (
          <>
            <Figure of={energy} scale={KWH_PER_30_DAYS} className="text-ink" /> of energy, as the coils stand today.{' '}
          </>
        ) : null}
        {unpriced > 0 ? `${counted(unpriced, 'kitchen has', 'kitchens have')} no energy price on file. ` : ''}
        {without ? `Without ${without}.` : ''}
      </Answer>
      <Answer
        question="Overdue"
        figure={
          <Link href="/due?booked=1" className="text-ink no-underline hover:underline">
            {counted(overdue.tasks, 'task')}
          </Link>
        }
      >
        {overdue.tasks === 0
          ? 'Nothing is late.'
          : `${overdue.toBook} to book, ${overdue.tasks - overdue.toBook} on a visit already. In ${counted(overdue.kitchens, 'kitchen')}; ${late.tasks} more than ${late.days} days over.`}
      </Answer>
      <Answer
        question="To decide"
        figure={
          <a href="#decide" className="text-ink no-underline hover:underline">
            {counted(matters, 'thing')}
          </a>
        }
      >
        {matters === 0
          ? 'Nothing waits for your word.'
          : [
              toDecide.failing > 0 ? counted(toDecide.failing, 'failing unit') : '',
              toDecide.changes > 0 ? counted(toDecide.changes, 'rule change') : '',
              toDecide.late > 0 ? `${toDecide.late} promised and late` : '',
            ]
              .filter(Boolean)
              .join(', ')}
      </Answer>
    </dl>
  );
}

const sum = (kitchens: KitchenLine[], key: 'unseen' | 'water') => kitchens.reduce((n, k) => n + k[key], 0);

function Answer({
  question,
  figure,
  wide = false,
  children,
}: {
  question: string;
  figure: ReactNode;
  wide?: boolean;
  children: ReactNode;
}) {
  return (
    <div className={`-mr-px -mb-px border-r border-b border-line px-4 py-3 sm:px-5 sm:py-4 ${wide ? 'max-sm:col-span-2' : ''}`}>
      <dt className="text-sm font-bold text-soft">{question}</dt>
      <dd className="mt-0.5 text-[1.75rem] leading-tight font-bold tracking-tight text-balance [&_span_.text-soft]:text-lg [&_span_.text-soft]:font-normal">
        {figure}
      </dd>
      <dd className="mt-1 text-sm text-soft">{children}</dd>
    </div>
  );
}

type Believed = KitchenLine & { rate: number; sd: number };
const believed = (k: KitchenLine): Believed[] =>
  k.rate === null || k.sd === null || !k.monthly || k.evidence === 0 ? [] : [{ ...k, rate: k.rate, sd: k.sd }];

function Fastest({ ranked: [worst, ...others], whole }: { ranked: Believed[]; whole: boolean }) {
  if (!worst)
    return (
      <Answer wide question="Fouls fastest" figure="Nobody knows yet">
        The first closed visits will tell.
      </Answer>
    );
  const tied = notApartFrom(worst, others);
  const [first] = tied;
  const name = (
    <Link href={`/owner/kitchens/${worst.id}`} className="text-ink no-underline hover:underline">
      {worst.name}
    </Link>
  );
  return (
    <Answer wide question={`Fouls fastest${whole ? '' : ', kitchens below'}`} figure={name}>
      {worst.customer === worst.name ? '' : `${worst.customer}. `}Its coils lose{' '}
      <Figure of={worst.monthly} scale={PERCENT} className="text-ink" /> of their heat transfer in 30 days.
      {first ? (
        <>
          {' '}
          {tied.length === 1 ? fullKitchenName(first) : `${tied.length} others`} <Link href="/owner/fouling">can’t be told apart</Link> from
          it.
        </>
      ) : null}
    </Answer>
  );
}
