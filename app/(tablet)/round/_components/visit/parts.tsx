import { counted } from '@/lib/core/wording/counted';
import { MOST_OF_A_PART, typedNumber, type VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Card, Chip, TouchField } from '../touch';

const ONE = { what: '', quantity: '1' };

export function Parts({ visit }: { visit: VisitOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const { draft, setDraft, clear } = useDraft(`${visit.id}:part`, ONE);
  const { what, quantity } = draft;
  const amount = typedNumber(quantity);
  const tooMany = (amount ?? 0) > MOST_OF_A_PART;
  const add = async () => {
    if (await write('part.use', { unitId: null, what: what.trim(), quantity: amount ?? 1 })) clear();
  };
  return (
    <Card title="Parts used">
      <ul className="mb-3 flex flex-col divide-y divide-line">
        {visit.entries.parts.map((p) => (
          <li key={p.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
            <span>
              {p.quantity} × {p.what}
            </span>
            <span className="flex items-center gap-2">
              <EntryMark id={p.id} />
              <Chip onClick={() => void write('entry.strike', { what: 'part', entryId: p.id, why: 'Entered by mistake' })}>Take back</Chip>
            </span>
          </li>
        ))}
      </ul>
      <div className="grid grid-cols-[1fr_5.5rem] gap-3">
        <TouchField
          id="part-what"
          label="Part"
          value={what}
          onChange={(e) => setDraft({ ...draft, what: e.target.value })}
          maxLength={200}
        />
        <TouchField
          id="part-quantity"
          label="How many"
          inputMode="decimal"
          value={quantity}
          onChange={(e) => setDraft({ ...draft, quantity: e.target.value })}
        />
      </div>
      {tooMany ? (
        <p role="alert" className="mt-2 font-bold text-alarm">
          How many: at most {counted(MOST_OF_A_PART, 'piece')} can be saved.
        </p>
      ) : null}
      <Chip className="mt-3" disabled={busy || !what.trim() || !(amount && amount > 0) || tooMany} onClick={() => void add()}>
        Add part
      </Chip>
    </Card>
  );
}
