import { isWeekday, WEEKDAY_NAMES, type Weekday } from '../calendar';
import { LIMITS, NAME_MAX, TEXT_MAX } from '../equipment/limits';
import { UNIT_KEYS } from '../equipment/unit-fields';
import { readWeekHours, writeWeekHours } from '../hours';
import * as cells from './cells';
import { kitchenColumn, nameColumn, taskColumn, type Column } from './column';
import { figure, measuredIn, yes } from './measured';
import type { TaskKindInfo } from './types';
import { unitColumns } from './unit-columns';

const same = (x: number) => x;

function weekday(text: string): cells.Cell<Weekday> {
  const at: number = WEEKDAY_NAMES.findIndex((n) => text.length >= 3 && n.toLowerCase().startsWith(text.toLowerCase()));
  return isWeekday(at) ? { value: at } : { problem: 'Is not a weekday. Write Monday or Mon.' };
}

function hours(text: string) {
  const read = readWeekHours(text);
  return 'problem' in read ? { problem: read.problem } : { value: read.windows };
}

/** Columns of kitchens and units, in the order of the template. */
const FIXED_COLUMNS: readonly Column[] = [
  nameColumn('customer', 'customer', {
    about: 'Customer’s name. A name not on file yet makes a new customer.',
    required: true,
    read: cells.freeText(NAME_MAX),
  }),
  nameColumn('kitchen', 'kitchen', {
    about: 'Kitchen’s name. Rows of one kitchen need its details once.',
    required: true,
    read: cells.freeText(NAME_MAX),
  }),
  kitchenColumn('address', 'address', { about: 'Street, town.', read: cells.freeText(400) }),
  kitchenColumn('time_zone', 'timeZone', { about: 'Like America/Chicago; the shop’s own when empty.', read: cells.timeZone }),
  ...measuredIn('length', LIMITS.altitudeM, 'altitude', 'Height above the sea; gauges read by it. 0 when empty.').map(([header, o]) =>
    kitchenColumn(header, 'altitudeM', o),
  ),
  kitchenColumn('lat', 'lat', {
    about: 'Degrees north; with lng or not at all.',
    read: cells.number(LIMITS.lat, 'degrees', same, same),
    write: figure(same),
  }),
  kitchenColumn('lng', 'lng', {
    about: 'Degrees east, so negative in America.',
    read: cells.number(LIMITS.lng, 'degrees', same, same),
    write: figure(same),
  }),
  kitchenColumn('service_hours', 'serviceHours', {
    about: 'When the kitchen can spare its equipment: Mon-Fri 06:00-10:30; Sat 07:00-09:00. Any time when empty.',
    read: hours,
    write: writeWeekHours,
  }),
  kitchenColumn('access_notes', 'accessNotes', { about: 'Keys, alarm, parking, ladder.', read: cells.freeText(TEXT_MAX) }),
  kitchenColumn('contact_name', 'contactName', { about: 'Whom to ask for.', read: cells.freeText(NAME_MAX) }),
  kitchenColumn('contact_phone', 'contactPhone', { about: 'Phone.', read: cells.freeText(60) }),
  kitchenColumn('contact_email', 'contactEmail', { about: 'E-mail.', read: cells.email }),
  kitchenColumn('energy_price_per_kwh', 'energyPricePerKwh', {
    about: 'In the shop’s currency. Empty: no cost is shown.',
    read: cells.number(LIMITS.energyPricePerKwh, 'per kWh', same, same),
    write: figure(same),
  }),
  ...measuredIn('temperature', LIMITS.hotDayAirK, 'hot_day_air', 'Air at the coil inlet on a hot day; 95 °F (35 °C) when empty.').map(
    ([header, o]) => kitchenColumn(header, 'hotDayAirK', o),
  ),
  kitchenColumn('preferred_weekday', 'preferredWeekday', {
    about: 'Weekday its due dates fall on.',
    read: weekday,
    write: (d) => WEEKDAY_NAMES[d],
  }),

  ...UNIT_KEYS.flatMap(unitColumns),
];

/** Columns of one kind of task. */
const taskColumns = ({ key, label }: TaskKindInfo): Column[] => [
  taskColumn(key, 'rule', 'rule', {
    about: `${label}: weeks, an RFC 5545 rule, or none. Common practice by placement when empty.`,
    read: cells.rule,
  }),
  taskColumn(key, 'anchor', 'anchor', {
    about: `${label}: last_completed (counted from the last visit) or calendar (fixed dates).`,
    read: cells.oneOf(['last_completed', 'calendar'], { last_completed: 'last completed', calendar: 'calendar' }),
  }),
  taskColumn(key, 'first_due', 'firstDue', { about: `${label}: first date of the rule.`, read: cells.date }),
  taskColumn(key, 'last_done', 'lastDoneOn', { about: `${label}: when it was last done, if known.`, read: cells.date }),
  taskColumn(key, 'locked', 'locked', { about: `${label}: yes keeps the rule whatever is found.`, read: cells.yesNo, write: yes }),
];

/** Every column a file may have, with the shop's own kinds of task. */
export const allColumns = (kinds: readonly TaskKindInfo[]): Column[] => [...FIXED_COLUMNS, ...kinds.flatMap(taskColumns)];
