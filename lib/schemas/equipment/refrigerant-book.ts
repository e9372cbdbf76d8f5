import { z } from 'zod';
import { CERTIFICATE_KINDS, CYLINDER_CONTENTS, CYLINDER_WAYS, LEAK_METHODS } from '../../core/refrigerant-book';
import { isFiledRefrigerant, UNKNOWN_REFRIGERANT } from '../../core/refrigerants/catalogue';
import { RECOVERED_FOR } from '../../core/sealed/work';
import { Measured, Reason, Version, FreeText } from '../values/fields';
import { text } from '../values/text';
import { LocalDateField, MaybeDate } from '../values/days';

const MASS = Measured([0, 500], 'mass');
const needed = (ask: string) =>
  MASS.transform((kg, ctx): number => {
    if (kg !== null) return kg;
    ctx.addIssue({ code: 'custom', path: ['value'], message: ask });
    return z.NEVER;
  });
const Blank = z.literal('').transform(() => null);
const MaybeId = z.union([Blank, z.uuid()]).optional().default(null);

export const NewCylinder = z
  .object({
    label: text({ error: 'Give what is written on it.' }).min(1, 'Give what is written on it.').max(60, 'At most 60 characters.'),
    refrigerant: text({ error: 'Choose the gas.' }).refine((r) => isFiledRefrigerant(r) && r !== UNKNOWN_REFRIGERANT, 'Choose the gas.'),
    contents: z.enum(CYLINDER_CONTENTS, { error: 'New or recovered?' }),
    tare: needed('Give the weight of the empty cylinder.'),
    gross: needed('Weigh it as it is.'),
    most: needed('Give the most gas it may hold.'),
    withUserId: MaybeId,
    note: FreeText(500),
  })
  .refine((c) => c.tare > 0, { path: ['tare.value'], message: 'An empty cylinder weighs something.' })
  .refine((c) => c.most > 0, { path: ['most.value'], message: 'It may hold something.' })
  .refine((c) => c.gross >= c.tare, { path: ['gross.value'], message: 'With gas in it, it weighs no less than empty.' })
  .refine((c) => c.gross - c.tare <= c.most * 1.02, { path: ['gross.value'], message: 'That is more gas than it may hold.' });
export type NewCylinder = z.output<typeof NewCylinder>;

export const NewCylinderEntry = z
  .object({
    cylinderId: z.uuid(),
    way: z.enum(CYLINDER_WAYS, { error: 'Say what happened.' }),
    kg: Measured([-500, 500], 'mass').optional().default(null),
    gross: MASS.optional().default(null),
    unitTag: FreeText(60),
    recoveredFor: z
      .union([Blank, z.enum(RECOVERED_FOR)])
      .optional()
      .default(null),
    certificateId: MaybeId,
    overruledBy: FreeText(200),
    overruledWhy: FreeText(500),
    on: LocalDateField,
    note: FreeText(500),
  })
  .refine((e) => e.way === 'scale_check' || (e.kg !== null && e.kg !== 0), { path: ['kg.value'], message: 'Give the weight.' })
  .refine((e) => e.way === 'moved' || e.kg === null || e.kg >= 0, {
    path: ['kg.value'],
    message: 'Without a sign: what happened says which way.',
  })
  .refine((e) => e.way !== 'scale_check' || e.gross !== null, { path: ['gross.value'], message: 'Give what the scale shows.' });
export type NewCylinderEntry = z.output<typeof NewCylinderEntry>;

export const TakeEntryBack = z.object({ entryId: z.uuid(), why: Reason('Say what was wrong with it.') });
export type TakeEntryBack = z.output<typeof TakeEntryBack>;

export const CylinderGone = z.object({ id: z.uuid(), version: Version, why: Reason('Say where it went.') });
export type CylinderGone = z.output<typeof CylinderGone>;

export const CylinderPlace = z.object({ id: z.uuid(), version: Version, withUserId: MaybeId });
export type CylinderPlace = z.output<typeof CylinderPlace>;

export const SetLeakRules = z.object({ leakRuleSet: z.enum(['us', 'eu']), leakMethod: z.enum(LEAK_METHODS) });
export type SetLeakRules = z.output<typeof SetLeakRules>;

export const NewLeakTest = z.object({
  unitId: z.uuid(),
  on: LocalDateField,
  kind: z.enum(['initial', 'follow_up']),
  passed: z.enum(['yes', 'no']),
  how: FreeText(300),
});
export type NewLeakTest = z.output<typeof NewLeakTest>;

export const NewCertificate = z.object({
  userId: z.uuid(),
  kind: z.enum(CERTIFICATE_KINDS, { error: 'Choose what it is.' }),
  number: text({ error: 'Give its number.' }).min(1, 'Give its number.').max(80, 'At most 80 characters.'),
  expiresOn: MaybeDate,
});
export type NewCertificate = z.output<typeof NewCertificate>;
export const WithdrawCertificate = z.object({ id: z.uuid() });
