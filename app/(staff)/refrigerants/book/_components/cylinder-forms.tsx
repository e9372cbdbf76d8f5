'use client';

import {
  CERTIFICATE_LABEL,
  CONTENTS_LABEL,
  CYLINDER_CONTENTS,
  CYLINDER_WAY_LABEL,
  CYLINDER_WAYS,
  type CertificateKind,
} from '@/lib/core/refrigerant-book';
import { RECOVERED_FOR, RECOVERED_FOR_LABEL } from '@/lib/core/sealed/work';
import { FILED_REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { useState } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { Field, FormErrors, Select, TextArea } from '@/app/_ui/fields/field';
import { MeasuredField } from '@/app/_ui/fields/measured-field';
import { Saved } from '@/app/_ui/feedback/saved';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { gone, place, putCylinder, takeBack, weigh } from '../actions';

type Person = { id: string; name: string };
const people = (list: readonly Person[]) => list.map((p) => ({ value: p.id, label: p.name }));

export function NewCylinderForm({ unit, vans }: { unit: string; vans: Person[] }) {
  const { form, error, on, busy } = useActionForm(putCylinder);
  const mass = (name: string, label: string, hint: string) => (
    <MeasuredField label={label} name={name} measure="mass" unit={unit} hint={hint} error={error} />
  );
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
        <Field label="What is written on it" {...on('label')} autoComplete="off" />
        <Select
          label="Gas"
          {...on('refrigerant')}
          blank="Choose"
          options={FILED_REFRIGERANTS.map((r) => ({ value: r.id, label: refrigerantLabel(r.id) }))}
        />
        <Select
          label="New or recovered"
          {...on('contents')}
          blank="Choose"
          options={CYLINDER_CONTENTS.map((value) => ({ value, label: CONTENTS_LABEL[value] }))}
        />
        <Select label="Where" {...on('withUserId')} blank="The shop" options={people(vans)} />
        {mass('tare', 'Empty weight', 'Stamped as T.W.')}
        {mass('gross', 'On the scale as it is', 'Cylinder and gas.')}
        {mass('most', 'Most gas it may hold', 'Four fifths of a recovery cylinder’s water capacity, or what came in a new one.')}
      </div>
      <TextArea label="Note" {...on('note')} />
      <Button look="primary" type="submit" disabled={busy} className="self-start">
        Put it on file
      </Button>
    </ActionForm>
  );
}

type Certificate = { id: string; name: string; kind: CertificateKind; number: string };

/** A line of the book by hand; what comes from a repair record on the tablet is there already. */
export function WeighForm({
  cylinderId,
  unit,
  today,
  certificates,
}: {
  cylinderId: string;
  unit: string;
  today: string;
  certificates: Certificate[];
}) {
  const { form, error, on, busy, saved } = useActionForm(weigh);
  const [way, setWay] = useState('scale_check');
  const touches = way === 'charged' || way === 'recovered';
  return (
    <ActionForm {...form} className="flex flex-col gap-4">
      <FormErrors errors={error('')} />
      <Hidden of={{ cylinderId }} />
      <div className="grid grid-cols-1 items-start gap-4 sm:grid-cols-2">
        <Select
          label="What happened"
          {...on('way')}
          value={way}
          onChange={(e) => setWay(e.target.value)}
          options={CYLINDER_WAYS.map((value) => ({ value, label: CYLINDER_WAY_LABEL[value] }))}
        />
        <Field label="Day" {...on('on')} type="date" defaultValue={today} />
        {way === 'scale_check' ? null : (
          <MeasuredField
            label="Gas moved"
            name="kg"
            measure="mass"
            unit={unit}
            hint={way === 'moved' ? 'Out of this one: with a minus.' : 'Without a sign.'}
            error={error}
          />
        )}
        <MeasuredField label="Scale shows now" name="gross" measure="mass" unit={unit} hint="Cylinder and gas." error={error} />
        {touches ? (
          <>
            <Field label="Unit’s tag" {...on('unitTag')} autoComplete="off" />
            <Select
              label="Under whose certificate"
              {...on('certificateId')}
              blank="None"
              options={certificates.map((c) => ({ value: c.id, label: `${c.name}: ${CERTIFICATE_LABEL[c.kind]} ${c.number}` }))}
            />
            <Field label="Else, who answers for it" {...on('overruledBy')} autoComplete="off" />
            <Field label="And why" {...on('overruledWhy')} autoComplete="off" />
          </>
        ) : null}
        {way === 'recovered' ? (
          <Select
            label="What becomes of it"
            {...on('recoveredFor')}
            blank="Not said"
            options={RECOVERED_FOR.map((value) => ({ value, label: RECOVERED_FOR_LABEL[value] }))}
          />
        ) : null}
      </div>
      <Field label="Note" {...on('note')} autoComplete="off" />
      <SaveRow busy={busy} label="Add to the book" saved={saved} said="In the book" />
    </ActionForm>
  );
}

export function TakeBackForm({ entryId, label }: { entryId: string; label: string }) {
  const { form, error, on, busy } = useActionForm(takeBack);
  const [asking, setAsking] = useState(false);
  if (!asking)
    return (
      <Button look="quiet" onClick={() => setAsking(true)} aria-label={`Take back: ${label}`}>
        Take back
      </Button>
    );
  return (
    <ActionForm {...form} className="flex flex-col gap-2">
      <FormErrors errors={error('')} />
      <Hidden of={{ entryId }} />
      <Field id={`why-${entryId}`} label="What was wrong with it" {...on('why')} autoComplete="off" />
      <Button type="submit" disabled={busy} className="self-start">
        Take it back
      </Button>
    </ActionForm>
  );
}

export function PlaceForm({ id, version, withUserId, vans }: { id: string; version: number; withUserId: string | null; vans: Person[] }) {
  const { form, error, on, busy, saved } = useActionForm(place);
  return (
    <ActionForm {...form} className="flex flex-wrap items-end gap-3">
      <FormErrors errors={error('')} />
      <Hidden of={{ id, version }} />
      <Select label="Put it in" {...on('withUserId')} blank="The shop" defaultValue={withUserId ?? ''} options={people(vans)} />
      <Button type="submit" disabled={busy}>
        Move it
      </Button>
      <Saved when={saved} />
    </ActionForm>
  );
}

export function GoneForm({ id, version }: { id: string; version: number }) {
  const { form, error, on, busy } = useActionForm(gone);
  return (
    <ActionForm {...form} className="flex flex-col gap-3">
      <p className="text-soft">Enter first what went with it: handed in to be reclaimed or destroyed. Afterwards it takes no more lines.</p>
      <FormErrors errors={error('')} />
      <Hidden of={{ id, version }} />
      <Field id="gone-why" label="Where it went" {...on('why')} autoComplete="off" />
      <Button look="danger" type="submit" disabled={busy} className="self-start">
        The cylinder is gone
      </Button>
    </ActionForm>
  );
}
