'use client';

import { DISTANCE_NAME, kmFrom, type DistanceUnit } from '@/lib/core/measures/region';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors } from '@/app/_ui/fields/field';
import { Saved } from '@/app/_ui/feedback/saved';
import { Sheet } from '@/app/_ui/page/sheet';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { saveCosts } from '../actions';

export type Costs = {
  labourPerHour: number | null;
  vehiclePerKm: number | null;
  energyPricePerKwh: number | null;
  cleaningCost: number | null;
  inspectionCost: number | null;
  failureCost: number | null;
};

/** Asked once, on the first day. Empty boxes stay empty until somebody fills them: a usual figure is only told beside. */
export function CostsForm({
  costs: c,
  currency,
  distance,
  seen,
}: {
  costs: Costs;
  currency: string;
  distance: DistanceUnit;
  seen: string;
}) {
  const { form, error, on, busy, saved } = useActionForm(saveCosts);
  const vehicle = c.vehiclePerKm === null ? '' : Number(kmFrom(c.vehiclePerKm, distance).toPrecision(6));
  const box = (name: keyof Costs, label: string, unit: string, hint: string) => (
    <Field label={label} unit={unit} {...on(name)} inputMode="decimal" defaultValue={c[name] ?? ''} autoComplete="off" hint={hint} />
  );
  return (
    <Sheet title="What things cost you">
      <ActionForm {...form} id="costs" className="flex flex-col gap-4">
        <p className="max-w-[75ch] text-soft">
          Drives, intervals and what a fouled coil costs are weighed with these. Until they are set, plans go by a guess and say so.
        </p>
        <FormErrors errors={error('')} />
        <Hidden of={{ seen, distance }} />
        <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2 lg:grid-cols-3">
          {box(
            'labourPerHour',
            'An hour of a technician',
            currency,
            'Wage with what comes on top. Often 35 to 70 in USD (common practice).',
          )}
          <Field
            label={`A ${DISTANCE_NAME[distance]} of driving`}
            unit={currency}
            {...on('vehicle')}
            inputMode="decimal"
            defaultValue={vehicle}
            autoComplete="off"
            hint={`The van alone: fuel, wear, insurance. About ${distance === 'mi' ? '0.70 a mile' : '0.43 a kilometre'} in USD.`}
          />
          {box('energyPricePerKwh', 'A kilowatt-hour', currency, 'From a customer’s bill. A kitchen with another price has its own.')}
          {box('cleaningCost', 'One coil cleaning', currency, 'As a part of a visit: time, materials and its share of the trip.')}
          {box('inspectionCost', 'One look at a drain or an evaporator', currency, 'As a part of a visit.')}
          {box('failureCost', 'A breakdown', currency, 'Call-out, spoiled food, parts: what one costs on the whole.')}
        </div>
        <div className="flex items-center gap-3">
          <Button look="primary" type="submit" disabled={busy}>
            {busy ? 'Saving …' : 'Save costs'}
          </Button>
          <Saved when={saved} />
        </div>
      </ActionForm>
    </Sheet>
  );
}
