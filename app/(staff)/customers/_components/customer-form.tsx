'use client';

import { ButtonLink } from '@/app/_ui/buttons/button';
import { LANGUAGE_LABEL, LANGUAGES, type Language } from '@/lib/core/customer-words/languages';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
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
  const { form, error, on, busy } = useActionForm(customer ? saveCustomer : addCustomer);
  return (
    <ActionForm {...form} className="flex max-w-2xl flex-col gap-4">
      <FormErrors errors={error('')} />
      {customer ? <Hidden of={{ id: customer.id, version: customer.version }} /> : null}
      <Field label="Name" {...on('name')} defaultValue={customer?.name} autoFocus={!customer} autoComplete="off" />
      <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
        <Field label="Whom to ask for" {...on('contactName')} defaultValue={customer?.contactName} autoComplete="off" />
        <Field label="Phone" {...on('phone')} type="tel" defaultValue={customer?.phone} autoComplete="off" />
      </div>
      <Field label="E-mail" {...on('email')} type="email" defaultValue={customer?.email} autoComplete="off" />
      <Select
        label="Writes and reads"
        {...on('language')}
        options={LANGUAGES.map((value) => ({ value, label: LANGUAGE_LABEL[value] }))}
        defaultValue={customer?.language ?? 'en'}
        hint="Reports and their letters are written in it."
      />
      <TextArea label="Notes" {...on('notes')} defaultValue={customer?.notes} />
      <SaveRow busy={busy} label={customer ? 'Save customer' : 'Put customer on file'}>
        <ButtonLink href={customer ? `/customers/${customer.id}` : '/customers'}>Back without saving</ButtonLink>
      </SaveRow>
    </ActionForm>
  );
}
