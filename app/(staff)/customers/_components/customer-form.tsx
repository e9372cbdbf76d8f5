'use client';

import { Button, ButtonLink } from '@/app/_ui/buttons/button';
import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addCustomer, saveCustomer } from '../actions';

type Customer = {
  id: string;
  version: number;
  name: string;
  contactName: string;
  email: string;
  phone: string;
  notes: string;
  language: Language;
};

export function CustomerForm({ customer }: { customer?: Customer }) {
  const { form, error, busy } = useActionForm(customer ? saveCustomer : addCustomer);
  return (
    <ActionForm {...form} className="flex max-w-2xl flex-col gap-4">
      <FormErrors errors={error('')} />
      {customer ? (
        <>
          <input type="hidden" name="id" value={customer.id} />
          <input type="hidden" name="version" value={customer.version} />
        </>
      ) : null}
      <Field label="Name" name="name" defaultValue={customer?.name} error={error('name')} autoFocus={!customer} autoComplete="off" />
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Field
          label="Whom to ask for"
          name="contactName"
          defaultValue={customer?.contactName}
          error={error('contactName')}
          autoComplete="off"
        />
        <Field label="Phone" name="phone" type="tel" defaultValue={customer?.phone} error={error('phone')} autoComplete="off" />
      </div>
      <Field label="E-mail" name="email" type="email" defaultValue={customer?.email} error={error('email')} autoComplete="off" />
      <Select
        label="Writes and reads"
        name="language"
        options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
        defaultValue={customer?.language ?? 'en'}
        error={error('language')}
        hint="Reports and their letters are written in it."
      />
      <TextArea label="Notes" name="notes" defaultValue={customer?.notes} error={error('notes')} />
      <div className="flex gap-2">
        <Button look="primary" type="submit" disabled={busy}>
          {busy ? 'Saving …' : customer ? 'Save customer' : 'Put customer on file'}
        </Button>
        <ButtonLink href={customer ? `/customers/${customer.id}` : '/customers'}>Back without saving</ButtonLink>
      </div>
    </ActionForm>
  );
}
