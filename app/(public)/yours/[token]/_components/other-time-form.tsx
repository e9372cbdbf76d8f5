'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { askOtherTime } from '../actions';

type Texts = { free: string; none: string; note: string; ask: string; choose: string };
type Props = { token: string; visitId: string; slots: { value: string; label: string }[]; texts: Texts; tooLong: string };

/** The free times, one of which may be asked for. */
export function OtherTimeForm({ token, visitId, slots, texts, tooLong }: Props) {
  const { form, error, busy } = usePlainForm(askOtherTime);
  const said: Record<string, string> = { choose: texts.choose, long: tooLong };
  const errors = (name: string) => error(name)?.map((key) => said[key] ?? key);
  if (slots.length === 0) return <p>{texts.none}</p>;
  return (
    <form {...form} className="flex flex-col gap-4">
      <Hidden of={{ token, visitId }} />
      <FormErrors errors={errors('')} />
      <fieldset className="flex flex-col gap-1 rounded-md border border-edge p-4">
        <legend className="px-1 font-bold">{texts.free}</legend>
        {slots.map((s) => (
          <label key={s.value} className="flex min-h-11 items-center gap-3">
            <input type="radio" name="startsAt" value={s.value} className="size-5" /> {s.label}
          </label>
        ))}
        <FormErrors errors={errors('startsAt')} />
      </fieldset>
      <TextArea label={texts.note} name="note" error={errors('note')} />
      <Button type="submit" name="answer" value="other_time" look="primary" size="touch" disabled={busy} className="self-start">
        {texts.ask}
      </Button>
    </form>
  );
}
