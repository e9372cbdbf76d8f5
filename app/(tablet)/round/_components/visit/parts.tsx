import { useId } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { likelyPlace, PART_PLACE_LABEL, PART_PLACES, partsLike, type PartOnList, type PartPlace } from '@/lib/core/parts/places';
import { typedNumber } from '@/lib/core/measures/typed-number';
import { MOST_OF_A_PART, partsForeseen, type PartForeseen, type VisitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../../_lib/tablet-context';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Card, Chip, TouchField, TouchSelect } from '../touch';

type Draft = { what: string; quantity: string; partId?: string | null; place?: PartPlace | null; unitId?: string };
const ONE: Draft = { what: '', quantity: '1' };
const NO_PARTS: readonly PartOnList[] = [];

/** What went in: of the shop's list by a tap, what a quote counts on first; anything else in words. */
export function Parts({ visit }: { visit: VisitOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const { draft, setDraft, clear } = useDraft<Draft>(`${visit.id}:part`, ONE);
  const list = useSnapshot((s) => s.me?.parts) ?? NO_PARTS;
  const { what, quantity } = draft;
  const part = list.find((p) => p.id === draft.partId);
  const unitId = draft.unitId ?? usualUnit(visit);
  const { amount, tooMany, ok } = piecesTyped(quantity);
  const place = part ? (draft.place ?? likelyPlace(part)) : null;
  const take = (p: PartOnList, more: Partial<Draft> = {}) =>
    setDraft({ ...draft, what: p.name, partId: p.id, place: likelyPlace(p), ...more });
  const takeForeseen = (f: PartForeseen) => {
    const more = { quantity: String(f.quantity), unitId: f.unitId ?? unitId };
    const listed = list.find((p) => p.id === f.partId);
    if (listed) take(listed, more);
    else setDraft({ ...draft, what: f.what, partId: null, place: null, ...more });
  };
  const add = async () => {
    const entry = { unitId: unitId || null, what: what.trim(), quantity: amount, partId: part?.id ?? null, place };
    if (await write('part.use', entry)) clear();
  };
  return (
    <Card title="Parts used">
      <PartLines visit={visit} onTakeBack={(id) => void write('entry.strike', { what: 'part', entryId: id, why: 'Entered by mistake' })} />
      <Taps label="In the quote" of={partsForeseen(visit)} textOf={(f) => `${f.quantity} × ${f.what}`} onTap={takeForeseen} />
      <div className="grid grid-cols-[1fr_5.5rem] gap-3">
        <TouchField
          id="part-what"
          label="Part"
          value={what}
          placeholder={list.length > 0 ? 'Number, name, or your own words' : undefined}
          onChange={(e) => setDraft({ ...draft, what: e.target.value, partId: null, place: null })}
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
      {part ? null : <Taps label="On the list" of={partsLike(list, what)} textOf={(p) => `${p.number} ${p.name}`} onTap={(p) => take(p)} />}
      {part && place ? (
        <div role="group" aria-label="Taken from" className="mt-3 flex flex-wrap gap-2">
          {PART_PLACES.map((at) => (
            <Chip key={at} on={at === place} onClick={() => setDraft({ ...draft, place: at })}>
              From {PART_PLACE_LABEL[at]} ({at === 'van' ? part.inVan : part.inShop})
            </Chip>
          ))}
        </div>
      ) : null}
      {visit.units.length > 1 && what.trim() ? (
        <div className="mt-3">
          <TouchSelect
            id="part-unit"
            label="Put into"
            value={unitId}
            onChange={(e) => setDraft({ ...draft, unitId: e.target.value })}
            options={[{ value: '', label: 'No unit in particular' }, ...visit.units.map((u) => ({ value: u.id, label: u.name }))]}
          />
        </div>
      ) : null}
      {tooMany ? (
        <p role="alert" className="mt-2 font-bold text-alarm">
          How many: at most {counted(MOST_OF_A_PART, 'piece')} can be saved.
        </p>
      ) : null}
      <Chip className="mt-3" disabled={busy || !what.trim() || !ok} onClick={() => void add()}>
        Add part
      </Chip>
    </Card>
  );
}

/** How many pieces were typed; one where it is no number, which cannot be saved. */
function piecesTyped(text: string): { amount: number; tooMany: boolean; ok: boolean } {
  const typed = typedNumber(text) ?? 0;
  const tooMany = typed > MOST_OF_A_PART;
  return { amount: typed || 1, tooMany, ok: typed > 0 && !tooMany };
}

function PartLines({ visit, onTakeBack }: { visit: VisitOnFile; onTakeBack: (id: string) => void }) {
  const unitWords = (unitId: string | null) =>
    unitId && visit.units.length > 1 ? `, ${visit.units.find((u) => u.id === unitId)?.name ?? ''}` : '';
  return (
    <ul className="mb-3 flex flex-col divide-y divide-line">
      {visit.entries.parts.map((p) => (
        <li key={p.id} className="flex min-h-12 flex-wrap items-center justify-between gap-x-4">
          <span>
            {p.quantity} × {p.what}
            <span className="text-soft">
              {unitWords(p.unitId)}
              {p.place ? `, from ${PART_PLACE_LABEL[p.place]}` : ''}
            </span>
          </span>
          <span className="flex items-center gap-2">
            <EntryMark id={p.id} />
            <Chip onClick={() => onTakeBack(p.id)}>Take back</Chip>
          </span>
        </li>
      ))}
    </ul>
  );
}

/** The unit that a part is for where nothing else is said: the only one there is, or the one of the only job. */
function usualUnit(visit: VisitOnFile): string {
  if (visit.units.length === 1) return visit.units[0]?.id ?? '';
  const ofJobs = [...new Set((visit.jobs ?? []).filter((j) => j.booked).flatMap((j) => j.unitIds))];
  return ofJobs.length === 1 ? (ofJobs[0] ?? '') : '';
}

type TapsOf<T> = { label: string; of: readonly T[]; textOf: (one: T) => string; onTap: (one: T) => void };

function Taps<T>({ label, of, textOf, onTap }: TapsOf<T>) {
  const id = useId();
  if (of.length === 0) return null;
  return (
    <div role="group" aria-labelledby={id} className="my-3 flex flex-wrap items-center gap-2">
      <span id={id} className="text-soft">
        {label}
      </span>
      {of.map((one) => (
        <Chip key={textOf(one)} onClick={() => onTap(one)}>
          {textOf(one)}
        </Chip>
      ))}
    </div>
  );
}
