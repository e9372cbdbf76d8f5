import { State, type Shape } from '@/app/_ui/states/state';
import { entryState, type EntryState } from '@/lib/tablet/snapshot';
import { useSnapshot } from '../_lib/tablet-context';

const LOOK: Record<EntryState, { shape: Shape; tone: 'ink' | 'soft' | 'cold' | 'alarm'; words: string }> = {
  here: { shape: 'held', tone: 'ink', words: 'On this tablet' },
  sending: { shape: 'now', tone: 'cold', words: 'Sending' },
  office: { shape: 'done', tone: 'soft', words: 'In the office' },
  conflict: { shape: 'ask', tone: 'alarm', words: 'In the office, with a question' },
  rejected: { shape: 'late', tone: 'alarm', words: 'Not taken by the office' },
};

/** How far one entry has come. `brief`: the shape alone in sight, unless somebody must read it. */
export function EntryMark({ id, brief = false }: { id: string; brief?: boolean }) {
  const look = LOOK[useSnapshot((s) => entryState(s, id))];
  return (
    <span className="text-sm">
      <State shape={look.shape} tone={look.tone}>
        {brief && look.tone !== 'alarm' ? <span className="sr-only">{look.words}</span> : look.words}
      </State>
    </span>
  );
}
