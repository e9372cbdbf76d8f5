import { z } from 'zod';
import { text } from '../values/text';
import { ROLES } from '../../core/people/access';
import { GAUGE_GRADES } from '../../core/condenser/types';
import { LIMITS } from '../../core/equipment/limits';
import { passwordProblem } from '../../core/people/password-rule';
import { MASS_UNITS, PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../core/measures/preferred';
import { SKILLS } from '../../core/people/skills';
import { Ticked, Email, Measured, PositionField, Version, WeekHours, FreeText } from '../values/fields';
import { LocalDateField } from '../values/days';

const PersonName = text({ error: 'Give the name.' })
  .min(2, 'Give the whole name, two letters or more.')
  .max(120, 'At most 120 characters.');
export const NewPassword = z.string({ error: 'Give a password.' });

type WithPassword = { password: string; name?: string; email?: string };
export function strong(p: WithPassword, ctx: z.RefinementCtx) {
  const problem = passwordProblem(p.password, p);
  if (problem) ctx.addIssue({ code: 'custom', path: ['password'], message: problem });
}

const fields = {
  name: PersonName,
  email: Email,
  role: z.enum(ROLES, { error: 'Choose a role.' }),
  alsoVisits: Ticked,
  skills: z.array(z.enum(SKILLS)).optional().default([]),
  shifts: WeekHours,
  onCall: WeekHours,
  phone: FreeText(60),
  gaugeGrade: z.enum(GAUGE_GRADES, { error: 'Choose the grade on the dial.' }).optional().default('1A'),
  gaugeSpan: Measured(LIMITS.gaugeSpanPa, 'pressure').optional(),
  home: PositionField,
};

type Raw = z.output<z.ZodObject<typeof fields>>;
const DEFAULT_SPAN_PA = 3_447_379;
const onFile = <T extends Raw>({ gaugeSpan, home, ...rest }: T) => ({
  ...rest,
  gaugeSpanPa: gaugeSpan ?? DEFAULT_SPAN_PA,
  homeLat: home?.lat ?? null,
  homeLng: home?.lng ?? null,
});

export const NewPerson = z
  .object({ ...fields, password: NewPassword.optional().default('') })
  .superRefine((p, ctx) => (p.password ? strong(p, ctx) : undefined))
  .transform(onFile);
export type NewPerson = z.output<typeof NewPerson>;

export const EditPerson = z.object({ id: z.uuid(), version: Version, ...fields }).transform(onFile);
export type EditPerson = z.output<typeof EditPerson>;

export const SetActive = z.object({ id: z.uuid(), version: Version, active: z.enum(['yes', 'no']) });
export type SetActive = z.output<typeof SetActive>;

export const SetPassword = z.object({ id: z.uuid(), password: NewPassword }).superRefine(strong);
export type SetPassword = z.output<typeof SetPassword>;

export const OwnersCode = z.object({ ownersGiveCode: Ticked });
export type OwnersCode = z.output<typeof OwnersCode>;

export const EndSession = z.object({ userId: z.uuid(), sessionId: z.uuid().optional() });
export type EndSession = z.output<typeof EndSession>;

export const NewTimeOff = z
  .object({ userId: z.uuid(), from: LocalDateField, to: LocalDateField, reason: FreeText(200) })
  .refine((t) => t.to >= t.from, { path: ['to'], message: 'The last day comes before the first.' });
export type NewTimeOff = z.output<typeof NewTimeOff>;
export const RemoveTimeOff = z.object({ id: z.uuid() });

/** Of one's own. */
export const MyUnits = z.object({
  temperatureUnit: z.enum(TEMPERATURE_UNITS),
  pressureUnit: z.enum(PRESSURE_UNITS),
  massUnit: z.enum(MASS_UNITS),
});
export type MyUnits = z.output<typeof MyUnits>;

export const MyArrivals = z.object({ sharesArrivals: Ticked });

export const ChangePassword = z.object({ current: z.string({ error: 'Give the password you have now.' }), password: NewPassword });
export type ChangePassword = z.output<typeof ChangePassword>;
export const EndMySession = z.object({ sessionId: z.uuid().optional() });

/** The password once more, before what could harm the shop. */
export const ProveIt = z.object({ password: z.string({ error: 'Give your password.' }) });
export type ProveIt = z.output<typeof ProveIt>;

export const PersonId = z.object({ id: z.uuid() });
export type PersonId = z.output<typeof PersonId>;

export const AskForLink = z.object({ email: Email });
export type AskForLink = z.output<typeof AskForLink>;
export const ChoosePassword = z.object({ token: text().max(100), password: NewPassword });
export type ChoosePassword = z.output<typeof ChoosePassword>;

export const ConfirmSecondStep = z.object({
  secret: text().regex(/^[A-Z2-7]{32}$/, 'Open this page again.'),
  code: text({ error: 'Give the six digits.' }).regex(/^\d{3}\s?\d{3}$/, 'Six digits, as the authenticator shows them.'),
});
export type ConfirmSecondStep = z.output<typeof ConfirmSecondStep>;
