'use client';

import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { askOtherTime } from '../actions';

type Words = { free: string; none: string; note: string; ask: string; choose: string };
type Props = { token: string; visitId: string; slots: { value: string; label: string }[]; words: Words; tooLong: string };

/** The free times, one of which may be asked for. */
export function OtherTimeForm({ token, visitId, slots, words, tooLong }: Props) {
  const { form, error, busy } = usePlainForm(askOtherTime);
  const said: Record<string, string> = { choose: words.choose, long: tooLong };
  const errors = (name: string) => error(name)?.map((key) => said[key] ?? key);
  if (slots.length === 0) return <p>{words.none}</p>;
  return (
    <form {...form} className="flex flex-col gap-4">
      <input type="hidden" name="token" value={token} />
      <input type="hidden" name="visitId" value={visitId} />
      <FormErrors errors={errors('')} />
      <fieldset className="flex flex-col gap-1 rounded-md border border-edge p-4">
        <legend className="px-1 font-bold">{words.free}</legend>
        {slots.map((s) => (
          <label key={s.value} className="flex min-h-11 items-center gap-3">
            <input type="radio" name="startsAt" value={s.value} className="size-5" /> {s.label}
          </label>
        ))}
        <FormErrors errors={errors('startsAt')} />
      </fieldset>
      <TextArea label={words.note} name="note" error={errors('note')} />
      <Button type="submit" name="answer" value="other_time" look="primary" size="touch" disabled={busy} className="self-start">
        {words.ask}
      </Button>
    </form>
  );
}
