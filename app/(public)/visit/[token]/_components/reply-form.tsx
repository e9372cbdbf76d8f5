'use client';

import { useState } from 'react';
import type { CustomerReply } from '@/lib/core/visits/events';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors, TextArea } from '@/app/_ui/fields/field';
import { usePlainForm } from '@/app/_ui/forms/use-plain-form';
import { State } from '@/app/_ui/states/state';
import { answer } from '../actions';

type Props = { token: string; given: CustomerReply | null; slots: { value: string; label: string }[]; phone: string };

export function ReplyForm({ token, given, slots, phone }: Props) {
  const suits = usePlainForm(answer);
  const other = usePlainForm(answer);
  const [asking, setAsking] = useState(false);
  const busy = suits.busy || other.busy;
  const data = suits.data ?? other.data;
  const said = data?.answer ?? given;
  if (data)
    return (
      <p role="status" className="rounded-md border border-edge bg-sheet p-5 text-lg">
        <State shape="done" tone="cold">
          {said === 'confirmed' ? 'Confirmed. See you then.' : 'Passed on. The shop will move the visit and write again.'}
        </State>
      </p>
    );
  return (
    <div className="flex flex-col gap-4">
      {given ? (
        <State shape="done" tone="soft">
          {given === 'confirmed' ? 'You confirmed this visit.' : 'You asked for another time.'}
        </State>
      ) : null}
      <form {...suits.form} className="flex flex-col gap-4">
        <input type="hidden" name="token" value={token} />
        <FormErrors errors={suits.error('') ?? suits.error('answer')} />
        <Button type="submit" name="answer" value="confirmed" look="primary" size="touch" disabled={busy}>
          That suits us
        </Button>
      </form>
      {asking ? (
        // A form of its own, so that Enter on a chosen time asks for that time and does not confirm the old one.
        <form {...other.form} className="flex flex-col gap-4">
          <input type="hidden" name="token" value={token} />
          <FormErrors errors={other.error('') ?? other.error('answer')} />
          <fieldset className="flex flex-col gap-2 rounded-md border border-edge p-4">
            <legend className="px-1 font-bold">Times that are free</legend>
            {slots.length === 0 ? <p>No free time in the next two weeks. {phone ? `Phone ${phone}.` : 'Phone the shop.'}</p> : null}
            {slots.map((s) => (
              <label key={s.value} className="flex min-h-11 items-center gap-3">
                <input type="radio" name="startsAt" value={s.value} className="size-5" /> {s.label}
              </label>
            ))}
            <FormErrors errors={other.error('startsAt')} />
            <TextArea label="Anything we should know" name="note" error={other.error('note')} />
            <Button type="submit" name="answer" value="other_time" size="touch" disabled={busy || slots.length === 0}>
              Ask for this time
            </Button>
          </fieldset>
        </form>
      ) : (
        <Button size="touch" onClick={() => setAsking(true)}>
          Another time would be better
        </Button>
      )}
    </div>
  );
}
