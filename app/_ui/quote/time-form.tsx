'use client';

import { wordsIn, type Language } from '@/lib/core/customer-words';
import { Button } from '../buttons/button';
import { FormErrors, TextArea } from '../fields/field';
import { Hidden } from '../forms/parts';
import type { FormAction } from '../forms/use-action-form';
import { usePlainForm } from '../forms/use-plain-form';

type Props = {
  action: FormAction<void>;
  hidden: Record<string, string>;
  language: Language;
  times: readonly { value: string; label: string }[];
  /** What was asked for before. */
  asked: string;
};

/** The free times, one of which books the work; and words for where none suits. Two forms, so that neither is sent with the other. */
export function TimeForm({ action, hidden, language, times, asked }: Props) {
  const book = usePlainForm(action);
  const other = usePlainForm(action);
  const say = wordsIn(language).quote.time;
  const said: Record<string, string> = { choose: say.choose, long: say.long };
  const inWords = (errors: string[] | undefined) => errors?.map((key) => said[key] ?? key);
  const busy = book.busy || other.busy;
  return (
    <section className="flex flex-col gap-4 no-print">
      <h2>{say.heading}</h2>
      {times.length > 0 ? (
        <form {...book.form} className="flex flex-col gap-4 rounded-md border border-edge bg-sheet p-4">
          <Hidden of={hidden} />
          <FormErrors errors={inWords(book.error(''))} />
          <fieldset className="flex flex-col gap-1">
            <legend>{say.lead}</legend>
            {times.map((t) => (
              <label key={t.value} className="flex min-h-12 items-center gap-3">
                <input type="radio" name="startsAt" value={t.value} required className="size-5 shrink-0" /> {t.label}
              </label>
            ))}
            <FormErrors errors={inWords(book.error('startsAt'))} />
          </fieldset>
          <Button type="submit" look="primary" size="touch" disabled={busy} className="self-start">
            {say.book}
          </Button>
        </form>
      ) : (
        <p>{say.none}</p>
      )}
      {asked ? <p>{say.asked(asked)}</p> : null}
      <form {...other.form} className="flex flex-col gap-3">
        <Hidden of={hidden} />
        <FormErrors errors={inWords(other.error('') ?? other.error('startsAt'))} />
        <TextArea label={say.other} name="otherTime" rows={2} error={inWords(other.error('otherTime'))} required />
        <Button type="submit" size="touch" disabled={busy} className="self-start">
          {say.ask}
        </Button>
      </form>
    </section>
  );
}
