import { WEEKDAY_NAMES, type Weekday } from '../calendar';
import * as eq from '../equipment/build';
import { NAME_MAX, TAG_FORM, TEXT_MAX } from '../equipment/limits';
import { readWeekHours, writeWeekHours } from '../hours';
import { refrigerantId } from '../refrigerants/naming';
import * as units from '../measures';
import * as cells from './cells';
import { kitchenColumn, nameColumn, taskColumn, unitColumn, type Column } from './column';
import type { TaskKindInfo } from './types';

/** Twelve digits bring every number back as it was to within a thousandth of a millionth. */
const figure = (fromSi: (x: number) => number) => (value: number) => String(Number(fromSi(value).toPrecision(12)));
const same = (x: number) => x;
const yes = (v: boolean) => (v ? 'yes' : 'no');

function measured(
  limit: 'altitudeM' | 'hotDayAirK' | 'boxSetK' | 'chargeKg' | 'cutoutPaGauge',
  unit: string,
  about: string,
  toSi: (x: number) => number,
  fromSi: (x: number) => number,
) {
  return { about: `${about} ${unit}.`, read: cells.number(limit, unit, toSi, fromSi), write: figure(fromSi) };
}

function weekday(text: string): cells.Cell<Weekday> {
  const at = WEEKDAY_NAMES.findIndex((n) => text.length >= 3 && n.toLowerCase().startsWith(text.toLowerCase()));
  return at < 0 ? { problem: 'Is not a weekday. Write Monday or Mon.' } : { value: at as Weekday };
}

function hours(text: string) {
  const read = readWeekHours(text);
  return 'problem' in read ? { problem: read.problem } : { value: read.windows };
}

function refrigerant(text: string): cells.Cell<string> {
  const id = refrigerantId(text);
  return id ? { value: id } : { problem: 'Is not a refrigerant on our list. Write it like R404A; the list stands with the columns.' };
}

function tag(text: string): cells.Cell<string> {
  const value = text.toUpperCase();
  return TAG_FORM.test(value) ? { value } : { problem: 'Tags take 2 to 40 letters, digits, dots, dashes and underscores.' };
}

const list = (keys: readonly string[]) => `One of ${keys.join(', ')}.`;

/** Columns of kitchens and units, in the order of the template. */
export const FIXED_COLUMNS: readonly Column[] = [
  nameColumn('customer', 'customer', {
    about: 'Customer’s name. A name not on file yet makes a new customer.',
    required: true,
    read: cells.words(NAME_MAX),
  }),
  nameColumn('kitchen', 'kitchen', {
    about: 'Kitchen’s name. Rows of one kitchen need its details once.',
    required: true,
    read: cells.words(NAME_MAX),
  }),
  kitchenColumn('address', 'address', { about: 'Street, town.', read: cells.words(400) }),
  kitchenColumn('time_zone', 'timeZone', { about: 'Like America/Chicago; the shop’s own when empty.', read: cells.timeZone }),
  kitchenColumn(
    'altitude_ft',
    'altitudeM',
    measured('altitudeM', 'ft', 'Height above the sea; gauges read by it. 0 when empty.', units.footToMetre, units.metreToFoot),
  ),
  kitchenColumn(
    'altitude_m',
    'altitudeM',
    measured('altitudeM', 'm', 'Height above the sea; gauges read by it. 0 when empty.', same, same),
  ),
  kitchenColumn('lat', 'lat', {
    about: 'Degrees north; with lng or not at all.',
    read: cells.number('lat', 'degrees', same, same),
    write: figure(same),
  }),
  kitchenColumn('lng', 'lng', {
    about: 'Degrees east, so negative in America.',
    read: cells.number('lng', 'degrees', same, same),
    write: figure(same),
  }),
  kitchenColumn('service_hours', 'serviceHours', {
    about: 'When the kitchen can spare its equipment: Mon-Fri 06:00-10:30; Sat 07:00-09:00. Any time when empty.',
    read: hours,
    write: writeWeekHours,
  }),
  kitchenColumn('access_notes', 'accessNotes', { about: 'Keys, alarm, parking, ladder.', read: cells.words(TEXT_MAX) }),
  kitchenColumn('contact_name', 'contactName', { about: 'Whom to ask for.', read: cells.words(NAME_MAX) }),
  kitchenColumn('contact_phone', 'contactPhone', { about: 'Phone.', read: cells.words(60) }),
  kitchenColumn('contact_email', 'contactEmail', { about: 'E-mail.', read: cells.email }),
  kitchenColumn('energy_price_per_kwh', 'energyPricePerKwh', {
    about: 'In the shop’s currency. Empty: no cost is shown.',
    read: cells.number('energyPricePerKwh', 'per kWh', same, same),
    write: figure(same),
  }),
  kitchenColumn(
    'hot_day_air_f',
    'hotDayAirK',
    measured(
      'hotDayAirK',
      '°F',
      'Air at the coil inlet on a hot day, 95 °F when empty.',
      units.fahrenheitToKelvin,
      units.kelvinToFahrenheit,
    ),
  ),
  kitchenColumn(
    'hot_day_air_c',
    'hotDayAirK',
    measured('hotDayAirK', '°C', 'Air at the coil inlet on a hot day, 35 °C when empty.', units.celsiusToKelvin, units.kelvinToCelsius),
  ),
  kitchenColumn('preferred_weekday', 'preferredWeekday', {
    about: 'Weekday its due dates fall on.',
    read: weekday,
    write: (d) => WEEKDAY_NAMES[d],
  }),

  unitColumn('unit', 'name', {
    about: 'What the kitchen calls it. One name once in a kitchen.',
    required: true,
    read: cells.words(NAME_MAX),
  }),
  unitColumn('tag', 'tag', { about: 'Code on its label; made for you when empty.', read: tag }),
  unitColumn('kind', 'kind', { about: list(eq.UNIT_KINDS), required: true, read: cells.oneOf(eq.UNIT_KINDS, eq.UNIT_KIND_LABEL) }),
  unitColumn('placement', 'placement', {
    about: `What its condenser breathes. ${list(eq.PLACEMENTS)}`,
    required: true,
    read: cells.oneOf(eq.PLACEMENTS, eq.PLACEMENT_LABEL),
  }),
  unitColumn('refrigerant', 'refrigerant', { about: 'From the nameplate, like R404A.', required: true, read: refrigerant }),
  unitColumn(
    'charge_oz',
    'chargeKg',
    measured('chargeKg', 'oz', 'Full charge from the nameplate.', units.ounceToKilogram, units.kilogramToOunce),
  ),
  unitColumn(
    'charge_lb',
    'chargeKg',
    measured('chargeKg', 'lb', 'Full charge from the nameplate.', units.poundToKilogram, units.kilogramToPound),
  ),
  unitColumn(
    'charge_g',
    'chargeKg',
    measured('chargeKg', 'g', 'Full charge from the nameplate.', units.gramToKilogram, units.kilogramToGram),
  ),
  unitColumn('charge_kg', 'chargeKg', measured('chargeKg', 'kg', 'Full charge from the nameplate.', same, same)),
  unitColumn('temperature', 'application', {
    about: `${list(eq.APPLICATIONS)} Usual for the kind when empty.`,
    read: cells.oneOf(eq.APPLICATIONS, eq.APPLICATION_LABEL),
  }),
  unitColumn('expansion', 'expansion', {
    about: `${list(eq.EXPANSIONS)} Usual for the kind when empty.`,
    read: cells.oneOf(eq.EXPANSIONS, eq.EXPANSION_LABEL),
  }),
  unitColumn('circuit', 'circuitAccess', {
    about: `${list(eq.CIRCUIT_ACCESS)} Usual for the kind when empty.`,
    read: cells.oneOf(eq.CIRCUIT_ACCESS, eq.CIRCUIT_ACCESS_LABEL),
  }),
  unitColumn('condenser', 'condenserKind', {
    about: `${list(eq.CONDENSER_KINDS)} fin_and_tube when empty.`,
    read: cells.oneOf(eq.CONDENSER_KINDS, eq.CONDENSER_KIND_LABEL),
  }),
  unitColumn(
    'cutout_psig',
    'cutoutPaGauge',
    measured(
      'cutoutPaGauge',
      'psig',
      'High-pressure cut-out.',
      (x) => x * units.PSI_PA,
      (x) => x / units.PSI_PA,
    ),
  ),
  unitColumn(
    'cutout_bar',
    'cutoutPaGauge',
    measured('cutoutPaGauge', 'bar', 'High-pressure cut-out, above atmosphere.', units.barToPascal, units.pascalToBar),
  ),
  unitColumn('box_f', 'boxSetK', measured('boxSetK', '°F', 'Box set point.', units.fahrenheitToKelvin, units.kelvinToFahrenheit)),
  unitColumn('box_c', 'boxSetK', measured('boxSetK', '°C', 'Box set point.', units.celsiusToKelvin, units.kelvinToCelsius)),
  unitColumn('head_control', 'headControl', {
    about: 'yes where a valve or fan cycling holds the head up in cold air.',
    read: cells.yesNo,
    write: yes,
  }),
  unitColumn('roof_work', 'roofWork', { about: 'yes where the condenser is reached by roof or ladder.', read: cells.yesNo, write: yes }),
  unitColumn('make', 'make', { about: 'Free text.', read: cells.words(NAME_MAX) }),
  unitColumn('model', 'model', { about: 'Free text.', read: cells.words(NAME_MAX) }),
  unitColumn('serial', 'serial', { about: 'Free text.', read: cells.words(NAME_MAX) }),
  unitColumn('notes', 'notes', { about: 'Free text.', read: cells.words(TEXT_MAX) }),
];

/** Columns of one kind of task. */
export const taskColumns = ({ key, label }: TaskKindInfo): Column[] => [
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
