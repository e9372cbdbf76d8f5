'use client';

import { wordsIn, type Language } from '@/lib/core/customer-words';
import { Button } from '../buttons/button';
import { Field, FormErrors, TextArea } from '../fields/field';
import type { FormAction } from '../forms/use-action-form';
import { usePlainForm } from '../forms/use-plain-form';

type Props = {
  action: FormAction<void>;
  hidden: Record<string, string>;
  language: Language;
  /** Messages of the form by what the schema calls them, where it does. */
  errors?: Record<string, string>;
};

/** Accepts or declines by name. */
export function AnswerForm({ action, hidden, language, errors = {} }: Props) {
  const { form, error, busy } = usePlainForm(action);
  const words = wordsIn(language).quote.answer;
  const said = (name: string) => error(name)?.map((key) => errors[key] ?? key);
  return (
    <form {...form} className="flex flex-col gap-4 rounded-md border border-edge bg-sheet p-4 no-print">
      <h2>{words.heading}</h2>
      <FormErrors errors={said('') ?? said('answer')} />
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Field label={words.name} name="name" error={said('name')} autoComplete="name" required />
      <TextArea label={words.note} name="note" rows={2} error={said('note')} />
      <div className="flex flex-wrap gap-3">
        <Button type="submit" name="answer" value="accepted" look="primary" size="touch" disabled={busy}>
          {words.accept}
        </Button>
        <Button type="submit" name="answer" value="declined" size="touch" disabled={busy}>
          {words.decline}
        </Button>
      </div>
    </form>
  );
}
