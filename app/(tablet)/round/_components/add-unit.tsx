import { useState } from 'react';
import { PLACEMENT_LABEL, PLACEMENTS, UNIT_KIND_LABEL, UNIT_KINDS, type Placement, type UnitKind } from '@/lib/core/equipment/build';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { REFRIGERANT_IDS } from '@/lib/core/refrigerants/catalogue';
import { usualBuild } from '@/lib/core/equipment/usual-build';
import type { VisitOnFile } from '@/lib/core/tablet';
import { go, to } from '../_lib/use-place';
import { useWrite } from '../_lib/use-write';
import { TouchButton, TouchField, TouchSelect } from './touch';

const REFRIGERANTS = [
  { value: '', label: 'Choose, from the nameplate' },
  { value: 'unknown', label: 'Nameplate cannot be read' },
  ...REFRIGERANT_IDS.map((id) => ({ value: id, label: refrigerantLabel(id) })),
];

/** A unit not on file, put there on the spot: what can be seen now, the rest by the office. */
export function AddUnit({ visit }: { visit: VisitOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const [f, set] = useState({ name: '', kind: '', placement: '', refrigerant: '', make: '', model: '', serial: '' });
  const field = (key: keyof typeof f) => ({
    id: `new-${key}`,
    value: f[key],
    onChange: (e: { target: { value: string } }) => set({ ...f, [key]: e.target.value }),
  });
  const ready = f.name.trim() && f.kind && f.placement && f.refrigerant;
  const add = async () => {
    const unitId = crypto.randomUUID();
    const kind = f.kind as UnitKind;
    const saved = await write('unit.add', {
      unitId,
      ...usualBuild(kind),
      kind,
      placement: f.placement as Placement,
      name: f.name.trim(),
      make: f.make.trim(),
      model: f.model.trim(),
      serial: f.serial.trim(),
      refrigerant: f.refrigerant,
      chargeKg: null,
      notes: '',
    });
    if (saved) go(to.unit(visit.id, unitId));
  };
  return (
    <div className="flex flex-col gap-4">
      <h1>Unit not on file</h1>
      <p className="text-soft">
        It goes on file at {visit.kitchen.name} with the usual tasks; the office looks over the rest and prints its label.
      </p>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <TouchField label="What they call it" maxLength={120} {...field('name')} />
        <TouchSelect
          label="Kind"
          {...field('kind')}
          options={[{ value: '', label: 'Choose' }, ...UNIT_KINDS.map((k) => ({ value: k, label: UNIT_KIND_LABEL[k] }))]}
        />
        <TouchSelect
          label="Where it stands"
          {...field('placement')}
          options={[{ value: '', label: 'Choose' }, ...PLACEMENTS.map((p) => ({ value: p, label: PLACEMENT_LABEL[p] }))]}
        />
        <TouchSelect label="Refrigerant" {...field('refrigerant')} options={REFRIGERANTS} />
        <TouchField label="Make" maxLength={120} {...field('make')} />
        <TouchField label="Model" maxLength={120} {...field('model')} />
        <TouchField label="Serial" maxLength={120} {...field('serial')} />
      </div>
      <TouchButton look="primary" disabled={busy || !ready} onClick={() => void add()}>
        Put it on file
      </TouchButton>
    </div>
  );
}
