import type { UnitKey } from '@/lib/core/equipment/unit-fields';
import { blankUnit, unitField } from '@/lib/core/equipment/unit-fields';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { measureUnitsOf, type VisitOnFile } from '@/lib/core/tablet';
import { usualTasks } from '@/lib/core/tasks';
import { entryUnit, ownUnitOf } from '@/lib/core/measures/entry-units';
import { useSnapshot } from '../_lib/tablet-context';
import { askedFirst, askedMore, optionsOf, stillWanted, unitTyped, wrongWith, type TypedUnit } from '../_lib/typed-unit';
import type { Said } from '@/lib/tablet/journal';
import { tasksUndone } from '../_lib/tasks-undone';
import { useDraft } from '../_lib/use-draft';
import { go, to } from '../_lib/use-place';
import { useWrite } from '../_lib/use-write';
import { Fold, TouchButton, TouchField, TouchSelect } from './touch';

type Typed = TypedUnit & { replaces?: string };
const NOTHING: Typed = {};

/** A unit not on file, put there on the spot: what can be seen now, the rest by the office. */
export function AddUnit({ visit }: { visit: VisitOnFile }) {
  const me = useSnapshot((s) => s.me);
  const { writeAll, busy } = useWrite(visit.id);
  const { draft: typed, setDraft: set, clear } = useDraft(`${visit.id}:new-unit`, NOTHING);
  if (!me) return null;
  const own = measureUnitsOf(me);
  const { replaces: _, ...fields } = typed;
  const unit = unitTyped(fields, own);
  const wanted = stillWanted(fields);
  const add = async () => {
    const unitId = crypto.randomUUID();
    if (!unit) return;
    const taskIds = Object.fromEntries(usualTasks({ ...blankUnit(unit.kind), ...unit }).map((key) => [key, crypto.randomUUID()]));
    const replacesId = typed.replaces || null;
    const said: Said[] = [{ kind: 'unit.add', payload: { unitId, taskIds, ...unit, ...(replacesId ? { replacesId } : {}) } }];
    // What it stands in place of is gone, with its tasks.
    if (replacesId && !visit.entries.outcomes.some((o) => o.unitId === replacesId)) {
      const reason = `Replaced by ${unit.name}`;
      said.push({ kind: 'unit.outcome', payload: { unitId: replacesId, outcome: 'gone', reason } });
      said.push(...tasksUndone(visit, replacesId, `Unit gone: ${reason}`));
    }
    if (!(await writeAll(said))) return;
    clear();
    go(to.unit(visit.id, unitId));
  };
  const inputs = (keys: readonly UnitKey[]) => (
    <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
      {keys.map((key) => (
        <Input key={key} name={key} own={own} value={typed[key] ?? ''} onText={(text) => set({ ...typed, [key]: text })} />
      ))}
    </div>
  );
  return (
    <div className="flex flex-col gap-4">
      <h1>Unit not on file</h1>
      <p className="text-soft">
        It goes on file at {visit.kitchen.name} with the usual tasks; the office looks over the rest and prints its label.
      </p>
      {inputs(askedFirst)}
      <TouchSelect
        id="new-replaces"
        label="In place of"
        value={typed.replaces ?? ''}
        onChange={(e) => set({ ...typed, replaces: e.target.value })}
        options={[{ value: '', label: 'None: it is an extra one' }, ...visit.units.map((u) => ({ value: u.id, label: u.name }))]}
      />
      <Fold summary="More from the nameplate and how it runs">
        <div className="px-4 pb-4">{inputs(askedMore)}</div>
      </Fold>
      {wanted.length > 0 ? <p className="text-soft">Still to say: {wanted.join(', ').toLowerCase()}.</p> : null}
      <TouchButton look="primary" disabled={busy || !unit} onClick={() => void add()}>
        Put it on file
      </TouchButton>
    </div>
  );
}

type Props = { name: UnitKey; own: MeasureUnits; value: string; onText: (text: string) => void };

function Input({ name, own, value, onText }: Props) {
  const field = unitField(name);
  const options = optionsOf(field);
  const wrong = wrongWith(name, value, own);
  const common = { id: `new-${name}`, value, onChange: (e: { target: { value: string } }) => onText(e.target.value) };
  if (options) return <TouchSelect label={field.label} options={options} {...common} />;
  const unit = field.type === 'measured' ? ` (${entryUnit(field.measure, ownUnitOf(field.measure, own)).label})` : '';
  return (
    <div>
      <TouchField
        label={`${field.label}${unit}`}
        maxLength={field.type === 'text' ? field.max : 20}
        inputMode={field.type === 'measured' ? 'decimal' : undefined}
        {...common}
      />
      {wrong ? (
        <p role="alert" className="mt-1 font-bold text-alarm">
          {wrong}
        </p>
      ) : null}
    </div>
  );
}
