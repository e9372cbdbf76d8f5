'use client';

import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { WEEKDAY_NAMES } from '@/lib/core/calendar';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { HoursFields } from '@/app/_ui/fields/hours-fields';
import { MeasuredField } from '@/app/_ui/fields/measured-field';
import { PositionField } from '@/app/_ui/fields/position-field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
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

export function KitchenForm({ customerId, kitchen, units, shopZone, currency, canLookUp }: Props) {
  const { form, error, busy } = useActionForm(kitchen ? saveKitchen : addKitchen);
  const k = kitchen;
  const length = units.temperature === 'F' ? 'ft' : 'm';
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      {k ? (
        <>
          <input type="hidden" name="id" value={k.id} />
          <input type="hidden" name="version" value={k.version} />
        </>
      ) : (
        <input type="hidden" name="customerId" value={customerId} />
      )}
      <div className="grid grid-cols-1 gap-6 lg:grid-cols-2">
        <Sheet title="Where">
          <div className="flex flex-col gap-4">
            <Field label="Name" name="name" defaultValue={k?.name} error={error('name')} autoComplete="off" />
            <Field
              label="Address"
              name="address"
              defaultValue={k?.address}
              error={error('address')}
              autoComplete="off"
              hint="Street and town. The due list finds areas by it."
            />
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
              <Field
                label="Time zone"
                name="timeZone"
                list="zones"
                defaultValue={k?.timeZone ?? shopZone}
                error={error('timeZone')}
                autoComplete="off"
                hint="Its due dates and visits follow this clock."
              />
              <MeasuredField
                label="Altitude"
                name="altitude"
                measure="length"
                unit={length}
                si={k?.altitudeM ?? 0}
                error={error}
                hint="Gauges read by it."
              />
              <PositionField
                name="position"
                position={k ?? { lat: null, lng: null }}
                error={error('position')}
                hint="For the drives between kitchens."
                lookUp={canLookUp ? lookUp : undefined}
              />
            </div>
            <ZoneList id="zones" />
          </div>
        </Sheet>
        <Sheet title="When">
          <div className="flex flex-col gap-4">
            <HoursFields
              legend="Hours it can spare its equipment"
              name="serviceHours"
              hours={k?.serviceHours ?? []}
              error={error}
              hint="Like 06:00-10:30, 14:30-16:30. A day left empty is closed to us. With no hours at all, visits are planned between 06:00 and 18:00."
            />
            <Select
              label="Preferred weekday"
              name="preferredWeekday"
              blank="Any day"
              options={DAYS}
              defaultValue={k?.preferredWeekday ?? ''}
              error={error('preferredWeekday')}
              hint="Rules of new units fall on it."
            />
          </div>
        </Sheet>
        <Sheet title="Getting in">
          <div className="flex flex-col gap-4">
            <TextArea
              label="Access notes"
              name="accessNotes"
              rows={5}
              defaultValue={k?.accessNotes}
              error={error('accessNotes')}
              hint="Keys, alarm, parking, ladder. The technician reads this first."
            />
            <Field
              label="Whom to ask for"
              name="contactName"
              defaultValue={k?.contactName}
              error={error('contactName')}
              autoComplete="off"
            />
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
              <Field
                label="Phone"
                name="contactPhone"
                type="tel"
                defaultValue={k?.contactPhone}
                error={error('contactPhone')}
                autoComplete="off"
              />
              <Field
                label="E-mail"
                name="contactEmail"
                type="email"
                defaultValue={k?.contactEmail}
                error={error('contactEmail')}
                autoComplete="off"
              />
            </div>
          </div>
        </Sheet>
        <Sheet title="What a fouled coil costs here">
          <div className="flex flex-col gap-4">
            <Field
              label="Energy price"
              unit={`${currency} per kWh`}
              name="energyPricePerKwh"
              inputMode="decimal"
              defaultValue={k?.energyPricePerKwh ?? ''}
              error={error('energyPricePerKwh')}
              autoComplete="off"
              hint="Only where it differs from the shop’s."
            />
            <MeasuredField
              label="Air at the coil on a hot day"
              name="hotDayAir"
              measure="temperature"
              unit={units.temperature}
              si={k?.hotDayAirK ?? 308.15}
              error={error}
              hint="At the coil’s face, in the kitchen, not outdoors."
            />
          </div>
        </Sheet>
      </div>
      <div className="flex gap-2">
        <Button look="primary" type="submit" disabled={busy}>
          {busy ? 'Saving …' : k ? 'Save kitchen' : 'Put kitchen on file'}
        </Button>
        <ButtonLink href={k ? `/kitchens/${k.id}` : `/customers/${customerId}`}>Back without saving</ButtonLink>
      </div>
    </ActionForm>
  );
}
