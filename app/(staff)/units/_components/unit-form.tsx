'use client';

import type { CompressorMap } from '@/lib/core/condenser/compressor/ten-coefficient';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import type { UsualBuild } from '@/lib/core/equipment/usual-build';
import { Button, ButtonLink } from '../../../_ui/button';
import { Check } from '../../../_ui/check';
import { Field, FormErrors, TextArea } from '../../../_ui/field';
import { MeasuredField } from '../../../_ui/measured-field';
import { Sheet } from '../../../_ui/sheet';
import { useActionForm } from '../../../_ui/use-action-form';
import { addUnit, saveUnit } from '../actions';
import { BuildFields } from './build-fields';
import { MapFields } from './map-fields';
import { RefrigerantField } from './refrigerant-field';

export type UnitFields = UsualBuild & {
  id: string; version: number; name: string; tag: string; kind: string; placement: string; make: string; model: string; serial: string; refrigerant: string; chargeKg: number | null;
  cutoutPaGauge: number | null; boxSetK: number | null; headControl: boolean; roofWork: boolean; notes: string; compressorMap: CompressorMap | null;
}; // prettier-ignore
type Props = { kitchenId: string; unit?: UnitFields; units: MeasureUnits };

export function UnitForm({ kitchenId, unit: u, units }: Props) {
  const { form, error, busy } = useActionForm(u ? saveUnit : addUnit);
  return (
    <form {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      {u ? (
        <>
          <input type="hidden" name="id" value={u.id} />
          <input type="hidden" name="version" value={u.version} />
        </>
      ) : (
        <input type="hidden" name="kitchenId" value={kitchenId} />
      )}
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
        <Sheet title="What and where">
          <div className="flex flex-col gap-4">
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-[2fr_1fr]">
              <Field
                label="Name"
                name="name"
                defaultValue={u?.name}
                error={error('name')}
                autoComplete="off"
                hint="What the kitchen calls it."
              />
              <Field
                label="Tag"
                name="tag"
                defaultValue={u?.tag}
                error={error('tag')}
                autoComplete="off"
                hint={u ? 'Code on its label.' : 'Made for you when empty.'}
              />
            </div>
            <BuildFields unit={u} error={error} />
          </div>
        </Sheet>
        <Sheet title="Nameplate">
          <div className="flex flex-col gap-4">
            <RefrigerantField value={u?.refrigerant} error={error('refrigerant')} />
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-3">
              <MeasuredField label="Charge" name="charge" measure="mass" unit={units.mass} si={u?.chargeKg} error={error} />
              <MeasuredField label="Cut-out" name="cutout" measure="pressure" unit={units.pressure} si={u?.cutoutPaGauge} error={error} />
              <MeasuredField
                label="Box set point"
                name="boxSet"
                measure="temperature"
                unit={units.temperature}
                si={u?.boxSetK}
                error={error}
              />
            </div>
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-3">
              <Field label="Make" name="make" defaultValue={u?.make} error={error('make')} autoComplete="off" />
              <Field label="Model" name="model" defaultValue={u?.model} error={error('model')} autoComplete="off" />
              <Field label="Serial" name="serial" defaultValue={u?.serial} error={error('serial')} autoComplete="off" />
            </div>
            <Check
              name="headControl"
              defaultChecked={u?.headControl}
              label="Head pressure is held up in cold air"
              hint="By a valve or by cycling the fan. Such readings say less."
            />
            <Check
              name="roofWork"
              defaultChecked={u?.roofWork}
              label="Condenser is reached by roof or ladder"
              hint="Only people on file for roof work are offered for it."
            />
          </div>
        </Sheet>
        {u ? null : (
          <Sheet title="First dates">
            <div className="flex flex-col gap-4">
              <p className="text-soft">
                Coil cleaning, drain and evaporator inspection are put on file with it, at intervals usual for its place (common practice).
                Findings then move them.
              </p>
              <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
                <Field
                  label="Coil last cleaned on"
                  name="lastCleanedOn"
                  type="date"
                  error={error('lastCleanedOn')}
                  hint="If anybody knows."
                />
                <Field label="First due on" name="firstDueOn" type="date" error={error('firstDueOn')} hint="In two weeks when empty." />
              </div>
            </div>
          </Sheet>
        )}
        <Sheet title="More">
          <div className="flex flex-col gap-4">
            <TextArea label="Notes" name="notes" defaultValue={u?.notes} error={error('notes')} />
            <MapFields map={u?.compressorMap ?? null} error={error} />
          </div>
        </Sheet>
      </div>
      <div className="flex gap-2">
        <Button look="primary" type="submit" disabled={busy}>
          {busy ? 'Saving …' : u ? 'Save unit' : 'Put unit on file'}
        </Button>
        <ButtonLink href={u ? `/units/${u.id}` : `/kitchens/${kitchenId}`}>Leave it</ButtonLink>
      </div>
    </form>
  );
}
