import { z } from 'zod';
import { text } from '../values/text';
import { isWeekday } from '../../core/calendar';
import { CHANGE_ANSWERS } from '../../core/intervals/change-question';
import { SAID_CHANGES } from '../../core/fouling/said-change';
import { Bounded, Name, NearPositionField, OptionalEmail, TimeZone, Version, WeekHours, FreeText } from '../values/fields';
import { Altitude, HotDayAir } from '../values/measures';
import { LocalDateField } from '../values/days';

const fields = {
  name: Name('the kitchen'),
  address: FreeText(400),
  timeZone: TimeZone,
  altitude: Altitude,
  position: NearPositionField,
  serviceHours: WeekHours,
  accessNotes: FreeText(),
  contactName: FreeText(120),
  contactPhone: FreeText(60),
  contactEmail: OptionalEmail,
  energyPricePerKwh: Bounded('energyPricePerKwh', 'a kilowatt-hour'),
  hotDayAir: HotDayAir,
  preferredWeekday: z.number().int().min(0).max(6).optional(),
};

type Placed = { lat: number | null; lng: number | null };
type Raw = z.output<z.ZodObject<typeof fields>>;

function onFile<T extends Raw>({ altitude, hotDayAir, position, energyPricePerKwh, preferredWeekday, ...rest }: T) {
  const at: Placed = position && 'lat' in position ? position : { lat: null, lng: null };
  return {
    ...rest,
    altitudeM: altitude ?? 0,
    hotDayAirK: hotDayAir ?? 308.15,
    ...at,
    /** A short plus code where one was typed: the shop's position makes it a place. */
    shortCode: position && 'shortCode' in position ? position.shortCode : '',
    energyPricePerKwh: energyPricePerKwh ?? null,
    preferredWeekday: isWeekday(preferredWeekday) ? preferredWeekday : null,
  };
}

export const NewKitchen = z.object({ customerId: z.uuid(), ...fields }).transform(onFile);
export type NewKitchen = z.output<typeof NewKitchen>;

export const EditKitchen = z.object({ id: z.uuid(), version: Version, ...fields }).transform(onFile);
export type EditKitchen = z.output<typeof EditKitchen>;

/** Days on which a kitchen is closed to us, first and last day both included as people say it. */
export const NewBlackout = z
  .object({ kitchenId: z.uuid(), from: LocalDateField, to: LocalDateField, reason: FreeText(200) })
  .refine((b) => b.to >= b.from, { path: ['to'], message: 'The last day comes before the first.' });
export type NewBlackout = z.output<typeof NewBlackout>;

export const KitchenChanged = z.object({
  kitchenId: z.uuid(),
  since: LocalDateField,
  breathes: z.enum(SAID_CHANGES),
  what: text({ error: 'Say what changed.' }).min(3, 'Say what changed.').max(200, 'At most 200 characters.'),
});
export type KitchenChanged = z.output<typeof KitchenChanged>;

/** What the office says when it is asked what changed. */
export const AnswerChange = z.object({
  id: z.uuid(),
  answer: z.enum(CHANGE_ANSWERS, { error: 'Choose what changed, or that nothing did.' }),
});
export type AnswerChange = z.output<typeof AnswerChange>;

export const RemoveBlackout = z.object({ id: z.uuid() });

export const FindPlaces = z.object({
  address: text({ error: 'Write the address first.' }).min(4, 'Write the address first.').max(400, 'At most 400 characters.'),
});

const Taken = z.object({ kitchenId: z.uuid(), index: z.number().int().min(0).max(9) });
export const AcceptPlaces = z.object({ taken: z.array(Taken).min(1, 'Tick at least one.').max(500) });
export const OneKitchen = z.object({ kitchenId: z.uuid() });
export const Nothing = z.object({});

/** Where a tablet was at an arrival, and whether its person allows that; fixes at most as many as a few days bring. */
export const Arrivals = z.object({
  allow: z.boolean().optional(),
  fixes: z
    .array(
      z.object({
        id: z.uuid(),
        visitId: z.uuid(),
        lat: z.number().min(-90).max(90),
        lng: z.number().min(-180).max(180),
        accuracyM: z.number().min(0).max(100_000),
        at: z.iso.datetime(),
      }),
    )
    .max(200),
});
export type Arrivals = z.output<typeof Arrivals>;

export const SetPosition = z.object({
  kitchenId: z.uuid(),
  text: text({ error: 'Paste a position first.' }).max(300, 'At most 300 characters.'),
});
