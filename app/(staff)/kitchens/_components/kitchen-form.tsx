'use client';

import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { WEEKDAY_NAMES } from '@/lib/core/calendar';
import { ownUnitOf } from '@/lib/core/measures/entry-units';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { HoursFields } from '@/app/_ui/fields/hours-fields';
import { MeasuredField } from '@/app/_ui/fields/measured-field';
import { PositionField } from '@/app/_ui/fields/position-field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import type { On } from '@/app/_ui/forms/use-sent-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { ZoneList } from '@/app/_ui/fields/zone-list';
import { findAddress } from '../../customers/positions/actions';
import { addKitchen, saveKitchen } from '../actions';

export type KitchenFields = {
  id: string; version: number; name: string; address: string; timeZone: string; altitudeM: number; lat: number | null; lng: number | null; serviceHours: WeeklyWindow[]; accessNotes: string;
  contactName: string; contactPhone: string; contactEmail: string; energyPricePerKwh: number | null; hotDayAirK: number; preferredWeekday: number | null;
}; // prettier-ignore
type Props = { customerId?: string; kitchen?: KitchenFields; units: MeasureUnits; shopZone: string; currency: string; canLookUp: boolean };

const lookUp = (address: string) => findAddress({ address });
const DAYS = WEEKDAY_NAMES.map((label, i) => ({ value: String(i), label }));

/** A kitchen that is still to be put on file, in the shop's own time zone. */
const newKitchen = (timeZone: string): KitchenFields => ({
  id: '', version: 0, name: '', address: '', timeZone, altitudeM: 0, lat: null, lng: null, serviceHours: [], accessNotes: '',
  contactName: '', contactPhone: '', contactEmail: '', energyPricePerKwh: null, hotDayAirK: 308.15, preferredWeekday: null,
}); // prettier-ignore

type Section = {
  of: KitchenFields;
  on: On;
  error: (name: string) => string[] | undefined;
};

export function KitchenForm({ customerId, kitchen, units, shopZone, currency, canLookUp }: Props) {
  const { form, error, on, busy } = useActionForm(kitchen ? saveKitchen : addKitchen);
  const of = kitchen ?? newKitchen(shopZone);
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      <Hidden of={kitchen ? { id: kitchen.id, version: kitchen.version } : { customerId }} />
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
        <Where of={of} on={on} error={error} units={units} canLookUp={canLookUp} />
        <When of={of} on={on} error={error} />
        <GettingIn of={of} on={on} error={error} />
        <Costs of={of} on={on} error={error} units={units} currency={currency} />
      </div>
      <SaveRow busy={busy} label={kitchen ? 'Save kitchen' : 'Put kitchen on file'}>
        <ButtonLink href={kitchen ? `/kitchens/${kitchen.id}` : `/customers/${customerId}`}>Back without saving</ButtonLink>
      </SaveRow>
    </ActionForm>
  );
}

function Where({ of, on, error, units, canLookUp }: Section & { units: MeasureUnits; canLookUp: boolean }) {
  return (
    <Sheet title="Where">
      <div className="flex flex-col gap-4">
        <Field label="Name" {...on('name')} defaultValue={of.name} autoComplete="off" />
        <Field
          label="Address"
          {...on('address')}
          defaultValue={of.address}
          autoComplete="off"
          hint="Street and town. The due list finds areas by it."
        />
        <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
          <Field
            label="Time zone"
            {...on('timeZone')}
            list="zones"
            defaultValue={of.timeZone}
            autoComplete="off"
            hint="Its due dates and visits follow this clock."
          />
          <MeasuredField
            label="Altitude"
            name="altitude"
            measure="length"
            unit={ownUnitOf('length', units)}
            si={of.altitudeM}
            error={error}
            hint="Gauges read by it."
          />
          <PositionField
            {...on('position')}
            position={of}
            hint="For the drives between kitchens."
            lookUp={canLookUp ? lookUp : undefined}
          />
        </div>
        <ZoneList id="zones" />
      </div>
    </Sheet>
  );
}

function When({ of, on, error }: Section) {
  return (
    <Sheet title="When">
      <div className="flex flex-col gap-4">
        <HoursFields
          legend="Hours it can spare its equipment"
          name="serviceHours"
          hours={of.serviceHours}
          error={error}
          hint="Like 06:00-10:30, 14:30-16:30 or 6am-2pm. A day left empty is closed to us. With no hours at all, visits are planned between 06:00 and 18:00."
        />
        <Select
          label="Preferred weekday"
          {...on('preferredWeekday')}
          blank="Any day"
          options={DAYS}
          defaultValue={of.preferredWeekday ?? ''}
          hint="Rules of new units fall on it."
        />
      </div>
    </Sheet>
  );
}

function GettingIn({ of, on }: Section) {
  return (
    <Sheet title="Getting in">
      <div className="flex flex-col gap-4">
        <TextArea
          label="Access notes"
          {...on('accessNotes')}
          rows={5}
          defaultValue={of.accessNotes}
          hint="Keys, alarm, parking, ladder. The technician reads this first."
        />
        <Field label="Whom to ask for" {...on('contactName')} defaultValue={of.contactName} autoComplete="off" />
        <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
          <Field label="Phone" {...on('contactPhone')} type="tel" defaultValue={of.contactPhone} autoComplete="off" />
          <Field label="E-mail" {...on('contactEmail')} type="email" defaultValue={of.contactEmail} autoComplete="off" />
        </div>
      </div>
    </Sheet>
  );
}

function Costs({ of, on, error, units, currency }: Section & { units: MeasureUnits; currency: string }) {
  return (
    <Sheet title="What a fouled coil costs here">
      <div className="flex flex-col gap-4">
        <Field
          label="Energy price"
          unit={`${currency} per kWh`}
          {...on('energyPricePerKwh')}
          inputMode="decimal"
          defaultValue={of.energyPricePerKwh ?? ''}
          autoComplete="off"
          hint="Only where it differs from the shop’s."
        />
        <MeasuredField
          label="Air at the coil on a hot day"
          name="hotDayAir"
          measure="temperature"
          unit={units.temperature}
          si={of.hotDayAirK}
          error={error}
          hint="At the coil’s face, in the kitchen, not outdoors."
        />
      </div>
    </Sheet>
  );
}
