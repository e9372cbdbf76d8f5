import { z } from 'zod';
import { text } from './text';
import { LIMITS } from '../core/equipment/limits';
import { Bounded, Email, Name, OptionalEmail, TimeZone, Words } from './fields';
import { NewPassword, strong } from './people';

/** ISO 4217, as far as this machine can write amounts in it. */
const Currency = text({ error: 'Give the currency as three letters.' })
  .transform((c) => c.toUpperCase())
  .refine((c) => /^[A-Z]{3}$/.test(c) && Intl.supportedValuesOf('currency').includes(c), 'Not a currency. Write it like USD.');

const fields = { name: Name('the shop'), timeZone: TimeZone, currency: Currency };
const number = (limit: 'circuity' | 'speedKmh') =>
  z
    .number({ error: 'Write a number.' })
    .min(LIMITS[limit][0], `At least ${LIMITS[limit][0]}.`)
    .max(LIMITS[limit][1], `At most ${LIMITS[limit][1]}.`);

export const EditShop = z
  .object({
    ...fields,
    phone: Words(60),
    email: OptionalEmail,
    lat: Bounded('lat', 'degrees'),
    lng: Bounded('lng', 'degrees'),
    overdueLimitDays: z.number({ error: 'Write the days.' }).int('Whole days.').min(0, 'At least 0.').max(365, 'At most 365.'),
    circuity: number('circuity'),
    speedKmh: number('speedKmh'),
    /** When the form was opened: a change made since is not overwritten. */
    seen: text(),
  })
  .superRefine((s, ctx) => {
    if ((s.lat === undefined) !== (s.lng === undefined))
      ctx.addIssue({
        code: 'custom',
        path: [s.lat === undefined ? 'lat' : 'lng'],
        message: 'Latitude and longitude go together: fill both or neither.',
      });
  })
  .transform(({ lat, lng, ...rest }) => ({ ...rest, lat: lat ?? null, lng: lng ?? null }));
export type EditShop = z.output<typeof EditShop>;

/** The shop and its first owner. */
export const SetUp = z
  .object({
    /** Printed when the app starts. */
    code: text({ error: 'Type the code that was printed when Rimebook started.' }).max(40, 'The code is shorter.'),
    shop: Name('the shop'),
    timeZone: TimeZone,
    currency: Currency,
    name: text({ error: 'Give your name.' }).min(2, 'Give your name.').max(120),
    email: Email,
    password: NewPassword,
  })
  .superRefine(strong);
export type SetUp = z.output<typeof SetUp>;
