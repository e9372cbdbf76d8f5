'use client';

import { useState } from 'react';
import { wordsIn, type Language } from '@/lib/core/customer-words';
import type { CustomerReply } from '@/lib/core/visits/events';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { Hidden } from '@/app/_ui/forms/parts';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { State } from '@/app/_ui/states/state';
import { answer } from '../actions';

type Props = {
  token: string;
  given: CustomerReply | null;
  slots: { value: string; label: string }[];
  phone: string;
  language: Language;
};

export function ReplyForm({ token, given, slots, phone, language }: Props) {
  const suits = usePlainForm(answer);
  const other = usePlainForm(answer);
  const [asking, setAsking] = useState(false);
  const busy = suits.busy || other.busy;
  const { visit: say, yours } = wordsIn(language);
  const byKey: Record<string, string> = say.errors;
  const inWords = (errors: string[] | undefined) => errors?.map((key) => byKey[key] ?? key);
  const data = suits.data ?? other.data;
  const said = data?.answer ?? given;
  if (data)
    return (
      <p role="status" className="rounded-md border border-edge bg-sheet p-5 text-lg">
        <State shape="done" tone="cold">
          {say.thanks[said ?? 'confirmed']}
        </State>
      </p>
    );
  return (
    <div className="flex flex-col gap-4">
      {given ? (
        <State shape="done" tone="soft">
          {given === 'confirmed' ? yours.visits.confirmed : say.asked}
        </State>
      ) : null}
      <form {...suits.form} className="flex flex-col gap-4">
        <Hidden of={{ token }} />
        <FormErrors errors={inWords(suits.error('') ?? suits.error('answer'))} />
        <Button type="submit" name="answer" value="confirmed" look="primary" size="touch" disabled={busy}>
          {yours.visits.suits}
        </Button>
      </form>
      {asking ? (
        // A form of its own, so that Enter on a chosen time asks for that time and does not confirm the old one.
        <form {...other.form} className="flex flex-col gap-4">
          <Hidden of={{ token }} />
          <FormErrors errors={inWords(other.error('') ?? other.error('answer'))} />
          <fieldset className="flex flex-col gap-2 rounded-md border border-edge p-4">
            <legend className="px-1 font-bold">{yours.another.free}</legend>
            {slots.length === 0 ? <p>{say.noneFree(phone)}</p> : null}
            {slots.map((s) => (
              <label key={s.value} className="flex min-h-11 items-center gap-3">
                <input type="radio" name="startsAt" value={s.value} className="size-5" /> {s.label}
              </label>
            ))}
            <FormErrors errors={inWords(other.error('startsAt'))} />
            <TextArea label={yours.another.note} name="note" error={inWords(other.error('note'))} />
            <Button type="submit" name="answer" value="other_time" size="touch" disabled={busy || slots.length === 0}>
              {yours.another.ask}
            </Button>
          </fieldset>
        </form>
      ) : (
        <Button size="touch" onClick={() => setAsking(true)}>
          {yours.visits.other}
        </Button>
      )}
    </div>
  );
}
