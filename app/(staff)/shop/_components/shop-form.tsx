'use client';

import Link from 'next/link';
import { DATE_HABIT_LABEL, DATE_HABITS, type DateHabit } from '@/lib/core/measures/habits';
import { REGION_NAMES, REGIONS, SPEED_LABEL, speedShown, type Region } from '@/lib/core/measures/region';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { PositionField } from '@/app/_ui/fields/position-field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { ZoneList } from '@/app/_ui/fields/zone-list';
import { saveShop } from '../actions';

export type ShopFields = {
  name: string;
  timeZone: string;
  currency: string;
  phone: string;
  email: string;
  lat: number | null;
  lng: number | null;
  overdueLimitDays: number;
  overShiftMinutes: number;
  remindDayBefore: boolean;
  circuity: number;
  speedKmh: number;
  region: Region;
  dates: DateHabit;
};

const WHERE = REGION_NAMES.map((value) => ({ value, label: REGIONS[value].label }));

const DATES = DATE_HABITS.map((value) => ({ value, label: DATE_HABIT_LABEL[value] }));

export function ShopForm({ shop: s, seen }: { shop: ShopFields; seen: string }) {
  const { form, error, on, busy, saved } = useActionForm(saveShop);
  const { distance } = REGIONS[s.region];
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      <Hidden of={{ seen, distance }} />
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-2">
        <Sheet title="Name, money, region">
          <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
            <div className="sm:col-span-2">
              <Field
                label="Name"
                {...on('name')}
                defaultValue={s.name}
                autoComplete="organization"
                hint="Stands on reports and messages to customers."
              />
            </div>
            <Field label="Phone" {...on('phone')} type="tel" defaultValue={s.phone} />
            <Field label="E-mail" {...on('email')} type="email" defaultValue={s.email} />
            <Field label="Time zone" {...on('timeZone')} list="zones" defaultValue={s.timeZone} autoComplete="off" />
            <Field label="Currency" {...on('currency')} defaultValue={s.currency} autoComplete="off" hint="Three letters, like USD." />
            <ZoneList id="zones" />
            <div className="sm:col-span-2">
              <Select
                label="Where the shop works"
                {...on('region')}
                options={WHERE}
                defaultValue={s.region}
                hint="Miles or kilometres follow it, and the dates and units in which customers read."
              />
            </div>
            <div className="sm:col-span-2">
              <Select
                label="Dates and times"
                {...on('dates')}
                options={DATES}
                defaultValue={s.dates}
                hint="On the office’s pages, in letters to you, and on the tablets once they have talked to the office."
              />
            </div>
            <div className="sm:col-span-2">
              <Check name="remindDayBefore" defaultChecked={s.remindDayBefore} label="Remind kitchens by mail the day before a visit" />
            </div>
          </div>
        </Sheet>
        <Sheet title="Planning">
          <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
            <Field
              label="Limit of overdue"
              unit="days"
              {...on('overdueLimitDays')}
              inputMode="numeric"
              defaultValue={s.overdueLimitDays}
              hint="Tasks beyond it come first on the due list."
            />
            <Field
              label="A day may run over by"
              unit="min"
              {...on('overShiftMinutes')}
              inputMode="numeric"
              defaultValue={s.overShiftMinutes}
              hint="How long after a shift a proposed day may end. 0 keeps everybody within their hours."
            />
            <Hidden of={{ speedOnFile: s.speedKmh }} />
            <Field
              label="Mean driving speed"
              unit={SPEED_LABEL[distance]}
              {...on('speed')}
              inputMode="decimal"
              defaultValue={speedShown(s.speedKmh, distance)}
              hint="Door to door, with parking."
            />
            <Field
              label="Road over straight line"
              {...on('circuity')}
              inputMode="decimal"
              defaultValue={s.circuity}
              hint={
                <>
                  1.3 is usual in towns (common practice). Better: <Link href="/week/travel">import driving minutes</Link>.
                </>
              }
            />
            <div className="sm:col-span-2" id="position">
              <PositionField
                label="Position of the shop"
                {...on('position')}
                position={s}
                hint="Rounds start there, unless someone starts at home."
              />
            </div>
          </div>
        </Sheet>
      </div>
      <SaveRow busy={busy} label="Save shop" saved={saved} />
    </ActionForm>
  );
}
