'use client';

import { useState } from 'react';
import { roleInfo, ROLES, VISITING_ROLES, type Role } from '@/lib/core/people/access';
import type { WeeklyWindow } from '@/lib/core/visits/service-hours';
import { GAUGE_GRADES } from '@/lib/core/condenser/types';
import type { MeasureUnits } from '@/lib/core/measures/preferred';
import { SKILL_LABEL, SKILLS, type Skill } from '@/lib/core/people/skills';
import { ButtonLink } from '@/app/_ui/buttons/button';
import { Check } from '@/app/_ui/fields/check';
import { Field, FormErrors, Select } from '@/app/_ui/fields/field';
import { HoursFields } from '@/app/_ui/fields/hours-fields';
import { MeasuredField } from '@/app/_ui/fields/measured-field';
import { NewPasswordField } from '@/app/_ui/fields/new-password-field';
import { PositionField } from '@/app/_ui/fields/position-field';
import { Sheet } from '@/app/_ui/page/sheet';
import { ActionForm } from '@/app/_ui/forms/action-form';
import { Hidden, SaveRow } from '@/app/_ui/forms/parts';
import { useActionForm } from '@/app/_ui/forms/use-action-form';
import { addPerson, savePerson } from '../actions';

export type PersonFields = {
  id: string;
  version: number;
  name: string;
  email: string;
  role: Role;
  alsoVisits: boolean;
  skills: Skill[];
  shifts: WeeklyWindow[];
  onCall: WeeklyWindow[];
  phone: string;
  gaugeGrade: string;
  gaugeSpanPa: number;
  homeLat: number | null;
  homeLng: number | null;
};

/** What a new technician starts with: shown, to be changed. */
const USUAL_SHIFT: WeeklyWindow[] = ([0, 1, 2, 3, 4] as const).map((weekday) => ({ weekday, from: '08:00', to: '16:30' }));

/** ASME B40.100 accuracy grades in per cent of span (from memory; see the dial). */
const GRADE_WORDS: Record<string, string> = {
  '4A': '±0.1 %',
  '3A': '±0.25 %',
  '2A': '±0.5 %',
  '1A': '±1 %',
  A: '±2-1-2 %',
  B: '±3-2-3 %',
  C: '±4-3-4 %',
  D: '±5 %',
};
const GRADES = GAUGE_GRADES.map((g) => ({ value: g, label: `${g}  (${GRADE_WORDS[g]} of span)` }));
const ROLE_OPTIONS = ROLES.map((value) => ({ value, label: roleInfo(value).label }));

/** Whoever is still to be put on file. */
const NOBODY: PersonFields = {
  id: '', version: 0, name: '', email: '', role: 'technician', alsoVisits: false, skills: [], shifts: USUAL_SHIFT, onCall: [], phone: '', gaugeGrade: '1A', gaugeSpanPa: 3_447_379,
  homeLat: null, homeLng: null,
}; // prettier-ignore

export function PersonForm({ person, units }: { person?: PersonFields; units: MeasureUnits }) {
  const p = person ?? NOBODY;
  const { form, error, on, busy } = useActionForm(person ? savePerson : addPerson);
  const [role, setRole] = useState<Role>(p.role);
  return (
    <ActionForm {...form} className="flex flex-col gap-6">
      <FormErrors errors={error('')} />
      {person ? <Hidden of={{ id: p.id, version: p.version }} /> : null}
      <div className="grid grid-cols-1 items-start gap-6 lg:grid-cols-2">
        <Sheet title="Who">
          <div className="flex flex-col gap-4">
            <Field label="Name" {...on('name')} defaultValue={p.name} autoComplete="off" />
            <Field label="E-mail" {...on('email')} type="email" defaultValue={p.email} autoComplete="off" hint="Signs in with it." />
            <Field
              label="Phone"
              {...on('phone')}
              type="tel"
              defaultValue={p.phone}
              autoComplete="off"
              hint="For the office, when something cannot wait."
            />
            <Select
              label="Role"
              {...on('role')}
              options={ROLE_OPTIONS}
              value={role}
              onChange={(e) => setRole(e.target.value as Role)}
              hint={roleInfo(role).duties}
            />
            {VISITING_ROLES.includes(role) ? null : (
              <Check
                name="alsoVisits"
                defaultChecked={p.alsoVisits}
                label="Goes to kitchens too"
                hint="Can be booked and planned for like a technician, by the shift and skills below."
              />
            )}
            {person ? null : (
              <div>
                <NewPasswordField error={error('password')} label="First password" />
                <p className="text-sm text-soft">Left empty, a link to choose one goes to the e-mail.</p>
              </div>
            )}
          </div>
        </Sheet>
        <Sheet title="What visits may ask for">
          <div className="flex flex-col gap-4">
            <fieldset>
              <legend className="mb-1 font-bold">Skills</legend>
              {SKILLS.map((s) => (
                <Check key={s} name="skills" value={s} defaultChecked={p.skills.includes(s)} label={SKILL_LABEL[s]} />
              ))}
              <p className="text-sm text-soft">
                Nobody without the skill is offered for such a unit. Tick it only for people licensed and trained for it.
              </p>
            </fieldset>
            <div className="grid grid-cols-1 gap-4 sm:grid-cols-2">
              <Select
                label="Gauge’s accuracy"
                {...on('gaugeGrade')}
                options={GRADES}
                defaultValue={p.gaugeGrade}
                hint="Grade on the dial (ASME B40.100)."
              />
              <MeasuredField
                label="Gauge’s span"
                name="gaugeSpan"
                measure="pressure"
                unit={units.pressure}
                si={p.gaugeSpanPa}
                error={error}
                hint="End of its scale. Bands of estimates follow from both."
              />
              <div className="sm:col-span-2">
                <PositionField
                  label="Home, if rounds start there"
                  {...on('home')}
                  position={{ lat: p.homeLat, lng: p.homeLng }}
                  hint="Left empty, rounds start and end at the shop."
                />
              </div>
            </div>
          </div>
        </Sheet>
        <Sheet title="Shift" className="lg:col-span-2">
          <div className="grid grid-cols-1 gap-8 lg:grid-cols-2">
            <HoursFields
              legend="Working hours"
              name="shifts"
              hours={p.shifts}
              error={error}
              hint="Like 7-3:30 or 07:00-15:30. A day left empty is a day off. Without any hours nobody who goes to kitchens can be planned for."
            />
            <HoursFields
              legend="On call"
              name="onCall"
              hours={p.onCall}
              error={error}
              hint="When this person may be sent out for what cannot wait, besides the shift. Past midnight: 16:30-24:00, and 00:00-07:00 on the next day."
            />
          </div>
        </Sheet>
      </div>
      <SaveRow busy={busy} label={person ? 'Save person' : 'Put person on file'}>
        <ButtonLink href="/people">Back without saving</ButtonLink>
      </SaveRow>
    </ActionForm>
  );
}
