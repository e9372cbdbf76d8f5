'use client';

import { CERTIFICATE_KINDS, CERTIFICATE_LABEL, type CertificateOnFile } from '@/lib/core/refrigerant-book';
import { dateWords } from '@/lib/core/calendar/when';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { State } from '@/app/_ui/states/state';
import { Hidden } from '@/app/_ui/forms/parts';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addLicence, withdrawLicence } from '../actions';

/** Licences to handle refrigerant: without one that holds, the tablet lets through no step on it. */
export function Certificates({ userId, list, today }: { userId: string; list: CertificateOnFile[]; today: string }) {
  const { form, error, on, busy } = useActionForm(addLicence);
  return (
    <div className="flex flex-col gap-3">
      {list.length === 0 ? <p className="text-soft">None on file: the tablet lets through no step on refrigerant.</p> : null}
      <ul>
        {list.map((c) => (
          <li key={c.id} className="flex flex-wrap items-center justify-between gap-2 border-b border-line">
            <span>
              {CERTIFICATE_LABEL[c.kind]} <b>{c.number}</b>{' '}
              {c.expiresOn === null ? (
                <span className="text-soft">does not expire</span>
              ) : c.expiresOn < today ? (
                <State shape="late" tone="alarm">
                  Ran out on {dateWords(c.expiresOn)}
                </State>
              ) : (
                <span className="text-soft">until {dateWords(c.expiresOn)}</span>
              )}
            </span>
            <Withdraw id={c.id} label={`${CERTIFICATE_LABEL[c.kind]} ${c.number}`} />
          </li>
        ))}
      </ul>
      <ActionForm {...form} className="grid grid-cols-1 items-start gap-3 sm:grid-cols-2">
        <FormErrors errors={error('')} />
        <Hidden of={{ userId }} />
        <div className="sm:col-span-2">
          <Select
            id="certificate-kind"
            label="What it is"
            {...on('kind')}
            blank="Choose"
            options={CERTIFICATE_KINDS.map((value) => ({ value, label: CERTIFICATE_LABEL[value] }))}
          />
        </div>
        <Field id="certificate-number" label="Number" {...on('number')} autoComplete="off" />
        <Field id="certificate-until" label="Last day it holds" {...on('expiresOn')} type="date" hint="Empty where it does not expire." />
        <Button type="submit" disabled={busy} className="justify-self-start">
          Add certificate
        </Button>
      </ActionForm>
    </div>
  );
}

function Withdraw({ id, label }: { id: string; label: string }) {
  const { form, busy } = useActionForm(withdrawLicence);
  return (
    <ActionForm {...form}>
      <Hidden of={{ id }} />
      <Button look="quiet" type="submit" disabled={busy} aria-label={`Withdraw ${label}`}>
        Withdraw
      </Button>
    </ActionForm>
  );
}
