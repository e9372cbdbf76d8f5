'use client';

import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import { JOB_URGENCIES } from '@/lib/core/jobs/states';
import { ringUs } from '../actions';

type Props = {
  token: string;
  /** New with each page that is read. */
  once: string;
  language: Language;
  phone: string;
  kitchens: { id: string; name: string }[];
  units: { id: string; name: string; kitchenId: string }[];
};

/** "Ring us about …": what goes to the office's list. */
export function RingForm({ token, once, language, phone, kitchens, units }: Props) {
  const { form, error, busy, data } = usePlainForm(ringUs);
  const { ring: say, errors } = wordsIn(language).yours;
  const said = (name: string) => error(name)?.map((key) => (key in errors ? errors[key as keyof typeof errors] : key));
  const one = kitchens.length === 1 ? kitchens[0] : undefined;
  if (data)
    return (
      <div role="status" className="mt-3 rounded-md border border-edge bg-sheet p-4 text-lg">
        <p>{say.sent}</p>
        {data.urgency === 'now' || data.urgency === 'today' ? <p className="mt-2 font-bold">{say.alsoRing(phone)}</p> : null}
      </div>
    );
  return (
    <form {...form} className="mt-3 flex flex-col gap-4 no-print">
      <FormErrors errors={said('')} />
      <Hidden of={{ token, once }} />
      {one ? (
        <Hidden of={{ kitchenId: one.id }} />
      ) : (
        <Select
          label={say.kitchen}
          name="kitchenId"
          blank=""
          options={kitchens.map((k) => ({ value: k.id, label: k.name }))}
          error={said('kitchenId')}
        />
      )}
      {one ? (
        <Select
          label={say.unit}
          name="unitId"
          blank={say.noUnit}
          options={units.map((u) => ({ value: u.id, label: u.name }))}
          error={said('unitId')}
        />
      ) : null}
      <TextArea label={say.what} name="what" error={said('what')} maxLength={500} />
      <fieldset className="flex flex-col gap-1 rounded-md border border-edge p-4">
        <legend className="px-1 font-bold">{say.soon}</legend>
        {JOB_URGENCIES.map((u) => (
          <label key={u} className="flex min-h-11 items-center gap-3">
            <input type="radio" name="urgency" value={u} className="size-5" /> {say.urgency[u]}
          </label>
        ))}
        <FormErrors errors={said('urgency')} />
      </fieldset>
      <p className="font-bold">{say.alsoRing(phone)}</p>
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Field label={say.name} name="name" autoComplete="name" error={said('name')} />
        <Field label={say.phone} name="phone" type="tel" autoComplete="tel" error={said('phone')} />
      </div>
      <Button type="submit" look="primary" size="touch" disabled={busy} className="self-start">
        {say.send}
      </Button>
    </form>
  );
}
