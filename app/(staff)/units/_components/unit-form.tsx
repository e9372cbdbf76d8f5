'use client';

import type { CompressorMap } from '@/lib/core/condenser/compressor/ten-coefficient';
import type { UnitValues } from '@/lib/core/equipment/unit-fields';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addUnit, saveUnit } from '../actions';
import { BuildFields } from './build-fields';
import { MapFields } from './map-fields';
import { keysOfPart } from './parts';
import { UnitInput } from './unit-input';

export type UnitFields = UnitValues & { id: string; version: number; compressorMap: CompressorMap | null };
type Props = { kitchenId: string; unit?: UnitFields; units: MeasureUnits };

export function UnitForm({ kitchenId, unit: u, units }: Props) {
  const { form, error, on, busy } = useActionForm(u ? saveUnit : addUnit);
  const inputs = (part: Parameters<typeof keysOfPart>[0]) =>
    keysOfPart(part).map((key) => <UnitInput key={key} name={key} unit={u} units={units} error={error} />);
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      {u ? <Hidden of={{ id: u.id, version: u.version }} /> : <Hidden of={{ kitchenId }} />}
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
        <Sheet title="What and where">
          <div className="flex flex-col gap-4">
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-[2fr_1fr]">{inputs('place')}</div>
            <BuildFields unit={u} error={error} />
          </div>
        </Sheet>
        <Sheet title="Nameplate">
          <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">{inputs('nameplate')}</div>
        </Sheet>
        <Sheet title="How it runs">
          <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">{inputs('running')}</div>
        </Sheet>
        {u ? null : (
          <Sheet title="First dates">
            <div className="flex flex-col gap-4">
              <p className="text-soft">
                Its usual tasks are put on file with it (a coil cleaning, drain and evaporator inspection; a water side check where water
                cools it), at intervals usual for its place (common practice). Findings then move them.
              </p>
              <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
                <Field label="Condenser last cleaned on" {...on('lastCleanedOn')} type="date" hint="If anybody knows." />
                <Field label="First due on" {...on('firstDueOn')} type="date" hint="In two weeks when empty." />
              </div>
            </div>
          </Sheet>
        )}
        <Sheet title="More">
          <div className="flex flex-col gap-4">
            {inputs('notes')}
            <MapFields map={u?.compressorMap ?? null} error={error} />
          </div>
        </Sheet>
      </div>
      <SaveRow busy={busy} label={u ? 'Save unit' : 'Put unit on file'}>
        <ButtonLink href={u ? `/units/${u.id}` : `/kitchens/${kitchenId}`}>Back without saving</ButtonLink>
      </SaveRow>
    </ActionForm>
  );
}
