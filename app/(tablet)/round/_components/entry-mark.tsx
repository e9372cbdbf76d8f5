import { State, type Mark } from '@/app/_ui/states/state';
import { entryState, type EntryState } from '@/lib/tablet/snapshot';
import { useSnapshot } from '../_lib/tablet-context';

const LOOK: Record<EntryState, Mark> = {
  here: { shape: 'held', tone: 'ink', label: 'On this tablet' },
  sending: { shape: 'now', tone: 'cold', label: 'Sending' },
  office: { shape: 'done', tone: 'soft', label: 'In the office' },
  conflict: { shape: 'ask', tone: 'alarm', label: 'In the office, with a question' },
  rejected: { shape: 'late', tone: 'alarm', label: 'Not taken by the office' },
};

/** How far one entry has come. `brief`: the shape alone in sight, unless somebody must read it. */
export function EntryMark({ id, brief = false }: { id: string; brief?: boolean }) {
  const look = LOOK[useSnapshot((s) => entryState(s, id))];
  return (
    <span className="text-sm">
      <State shape={look.shape} tone={look.tone}>
        {brief && look.tone !== 'alarm' ? <span className="sr-only">{look.label}</span> : look.label}
      </State>
    </span>
  );
}
