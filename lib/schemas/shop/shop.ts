import { whole } from '../../core/measures/figures';
import { z } from 'zod';
import { text } from '../values/text';
import { LIMITS } from '../../core/equipment/limits';
import { DATE_HABITS } from '../../core/measures/habits';
import { kmFrom, kmIn, REGION_NAMES, SPEED_LABEL, speedShown } from '../../core/measures/region';
import { Email, Name, OptionalEmail, PositionField, Ticked, TimeZone, FreeText } from '../values/fields';
import { NewPassword, strong } from '../people/people';

/** ISO 4217, as far as this machine can write amounts in it. */
const Currency = text({ error: 'Give the currency as three letters.' })
  .transform((c) => c.toUpperCase())
  .refine((c) => /^[A-Z]{3}$/.test(c) && Intl.supportedValuesOf('currency').includes(c), 'Not a currency. Write it like USD.');

const fields = { name: Name('the shop'), timeZone: TimeZone, currency: Currency };
/** Of roads, as the form that was filled in showed it. */
const Distance = z.enum(['mi', 'km']);

export const EditShop = z
  .object({
    ...fields,
    phone: FreeText(60),
    email: OptionalEmail,
    position: PositionField,
    overdueLimitDays: z.number({ error: 'Write the days.' }).int('Whole days.').min(0, 'At least 0.').max(365, 'At most 365.'),
    overShiftMinutes: z
      .number({ error: 'Write the minutes.' })
      .int('Whole minutes.')
      .min(0, 'At least 0.')
      .max(LIMITS.overShiftMinutes[1], `At most ${LIMITS.overShiftMinutes[1]}.`),
    remindDayBefore: Ticked,
    circuity: z
      .number({ error: 'Write a number.' })
      .min(LIMITS.circuity[0], `At least ${LIMITS.circuity[0]}.`)
      .max(LIMITS.circuity[1], `At most ${LIMITS.circuity[1]}.`),
    region: z.enum(REGION_NAMES, { error: 'Choose where the shop works.' }),
    dates: z.enum(DATE_HABITS, { error: 'Choose how dates are written.' }),
    speed: z.number({ error: 'Write a number.' }),
    speedOnFile: z.number().optional(),
    distance: Distance,
    /** When the form was opened: a change made since is not overwritten. */
    seen: text(),
  })
  .transform(({ position, speed, speedOnFile, distance, ...rest }, ctx) => {
    const asShown = speedOnFile !== undefined && speedShown(speedOnFile, distance) === speed;
    const speedKmh = asShown ? speedOnFile : kmFrom(speed, distance);
    const [least, most] = LIMITS.speedKmh;
    if (!(speedKmh >= least && speedKmh <= most)) {
      const [lo, hi] = [Math.ceil(kmIn(least, distance)), Math.floor(kmIn(most, distance))];
      ctx.addIssue({ code: 'custom', path: ['speed'], message: `Between ${lo} and ${hi} ${SPEED_LABEL[distance]}.` });
      return z.NEVER;
    }
    return { ...rest, speedKmh, lat: position?.lat ?? null, lng: position?.lng ?? null };
  });
export type EditShop = z.output<typeof EditShop>;

const money = (most: number, ask: string) =>
  z
    .number({ error: (issue) => (issue.input === undefined ? ask : 'Write an amount, like 1,200 or 0.70.') })
    .min(0, 'Not below nothing.')
    .max(most, `At most ${whole(most)}.`);

/** What things cost the shop, in its own currency. All of it is asked, and none of it is assumed. */
export const SetCosts = z
  .object({
    seen: text(),
    labourPerHour: money(2000, 'Give what an hour of a technician costs you.'),
    vehicle: money(100, 'Give what a mile or kilometre of driving costs.'),
    distance: Distance,
    cleaningCost: money(10_000, 'Give what one coil cleaning costs you.'),
    inspectionCost: money(10_000, 'Give what one look at a drain or evaporator costs you.'),
    failureCost: money(100_000, 'Give what a breakdown costs.'),
    energyPricePerKwh: money(10, 'Give the price of a kilowatt-hour.'),
  })
  .transform(({ vehicle, distance, ...rest }) => ({ ...rest, vehiclePerKm: kmIn(vehicle, distance) }));
export type SetCosts = z.output<typeof SetCosts>;

/** The shop and its first owner. */
export const SetUp = z
  .object({
    /** Printed when the app starts. */
    code: text({ error: 'Type the code that was printed when Rimebook started.' }).max(40, 'The code is shorter.'),
    shop: Name('the shop'),
    timeZone: TimeZone,
    currency: Currency,
    name: text({ error: 'Give your name.' }).min(2, 'Give your name.').max(120, 'At most 120 characters.'),
    email: Email,
    password: NewPassword,
  })
  .superRefine(strong);
export type SetUp = z.output<typeof SetUp>;

const MOST_LOGO_BYTES = 2_000_000;
/** What stands on reports beside what was found: the shop's mark and its own words. */
export const ReportLook = z.object({
  seen: text(),
  reportWords: FreeText(600),
  logo: z
    .instanceof(File)
    .optional()
    .refine((f) => !f || f.size <= MOST_LOGO_BYTES, 'At most 2 MB.'),
  removeLogo: z.literal('on').optional(),
});
export type ReportLook = z.output<typeof ReportLook>;

export const WeeklyLetter = z.object({ weeklyLetter: Ticked });
export type WeeklyLetter = z.output<typeof WeeklyLetter>;
