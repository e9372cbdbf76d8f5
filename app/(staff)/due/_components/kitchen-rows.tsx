import { labelOf } from '@/lib/core/typed/closed-set';
import Link from 'next/link';
import { describeRule } from '@/lib/core/calendar';
import { needsOf } from '@/lib/core/visits/needs';
import { PLACEMENT_LABEL } from '@/lib/core/equipment/build';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { DueState } from '@/app/_ui/states/due-state';
import { dayDateWords, momentIn } from '@/lib/core/calendar/when';
import type { DueKitchenLine, DueTaskLine } from './types';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

type Props = { kitchen: DueKitchenLine; limit: number; chosen: ReadonlySet<string>; choose: (ids: readonly string[], on: boolean) => void };

const NEED_WORDS: Record<string, string> = { flammable: 'flammable refrigerant', roof: 'roof or ladder' };

/** One kitchen's head with its tasks under it. */
export function KitchenRows({ kitchen: k, limit, chosen, choose }: Props) {
  const free = k.tasks.filter((t) => !t.visitId);
  const ids = free.map((t) => t.id);
  const picked = ids.filter((id) => chosen.has(id));
  const minutes = free.filter((t) => chosen.has(t.id)).reduce((sum, t) => sum + t.minutes, 0);
  const needs = needsOf(k.tasks).map((n) => NEED_WORDS[n] ?? n);
  const book = `/week/book?kitchen=${k.id}&tasks=${(picked.length > 0 ? picked : ids).join(',')}`;
  return (
    <tbody className="max-md:mb-6 max-md:block">
      <tr className="max-md:block">
        <td className="border-b border-edge bg-sunk px-2 py-2 align-middle max-md:hidden">
          {ids.length > 0 ? (
            <input
              type="checkbox"
              aria-label={`All of ${fullKitchenName(k)}`}
              className="tick-box"
              checked={picked.length === ids.length}
              onChange={(e) => choose(ids, e.target.checked)}
            />
          ) : null}
        </td>
        <th scope="rowgroup" colSpan={6} className="border-b border-edge bg-sunk px-2 py-2 text-left font-normal max-md:block">
          <div className="flex flex-wrap items-center justify-between gap-x-6 gap-y-1">
            <span>
              <Link href={`/kitchens/${k.id}`} className="font-bold">
                {k.name}
              </Link>{' '}
              <span className="text-soft">{[k.customer === k.name ? '' : k.customer, k.address].filter(Boolean).join(', ')}</span>
              {needs.length > 0 ? <span className="block text-sm text-soft">Asks for: {needs.join(', ')}</span> : null}
            </span>
            {ids.length > 0 ? (
              <span className="flex items-center gap-3">
                <span className="text-sm text-soft" aria-live="polite">
                  {picked.length > 0 ? `${picked.length} chosen, ${minutes} min` : ''}
                </span>
                <ButtonLink href={book} look={picked.length > 0 ? 'primary' : 'plain'} prefetch={false}>
                  {picked.length > 0 ? 'Book these' : 'Book all'}
                  <span className="sr-only"> of {fullKitchenName(k)}</span>
                </ButtonLink>
              </span>
            ) : null}
          </div>
        </th>
      </tr>
      {k.tasks.map((t) => (
        <TaskRow key={t.id} kitchen={k} task={t} limit={limit} on={chosen.has(t.id)} choose={(on) => choose([t.id], on)} />
      ))}
    </tbody>
  );
}

type RowProps = { kitchen: DueKitchenLine; task: DueTaskLine; limit: number; on: boolean; choose: (on: boolean) => void };

function TaskRow({ kitchen: k, task: t, limit, on, choose }: RowProps) {
  return (
    <tr className={`due-row ${on ? 'bg-cold-wash' : 'hover:bg-sunk/60'}`}>
      <td className="tick">
        {t.visitId ? null : (
          <input
            type="checkbox"
            aria-label={`${t.kind}, ${t.unit}`}
            className="tick-box"
            checked={on}
            onChange={(e) => choose(e.target.checked)}
          />
        )}
      </td>
      <td>
        <Link href={`/units/${t.unitId}`}>{t.unit}</Link>
      </td>
      <td className="task">{t.kind}</td>
      <td className="more">{labelOf(PLACEMENT_LABEL, t.placement)}</td>
      <td className="more">
        {describeRule(t.rule)}
        {t.locked ? ', locked' : ''}
      </td>
      <td className="more whitespace-nowrap">{t.lastDoneOn ? dayDateWords(t.lastDoneOn) : 'not yet'}</td>
      <td className="when">
        <DueState dueOn={t.dueOn} today={k.today} limit={limit} />
        {t.visitId && t.visitStartsAt !== null ? (
          <Link href={`/week/${t.visitId}`} className="block text-sm">
            booked {momentIn(t.visitStartsAt, k.timeZone)}, {t.technician}
          </Link>
        ) : null}
      </td>
    </tr>
  );
}
