import type { MeasureUnits } from '../measures/preferred';
import { ownUnitOf } from '../measures/entry-units';
import { allColumns } from './columns';
import type { TaskKindInfo } from './types';

/** Invented rows that show every kind of cell. */
const EXAMPLES: readonly Record<string, string>[] = [
  {
    customer: 'Juniper & Rye', kitchen: 'Juniper & Rye, Mill Street', address: '12 Mill Street, Fairhaven', time_zone: 'America/Chicago', altitude_ft: '590', lat: '41.88', lng: '-87.63',
    service_hours: 'Mon-Fri 06:00-10:30, 14:30-16:30; Sat 07:00-09:00', access_notes: 'Alley door, bell on the left. Key box: ask.', contact_name: 'Petra Aldous', contact_phone: '555-0141', contact_email: 'petra@juniperrye.example',
    energy_price_per_kwh: '0.17', hot_day_air_f: '95', preferred_weekday: 'Tuesday', unit: 'Fry line drawers', tag: 'JR-01', kind: 'drawer_base', placement: 'fryer', refrigerant: 'R290', charge_oz: '4.2', temperature: 'medium',
    expansion: 'capillary', circuit: 'sealed', condenser: 'fin_and_tube', box_f: '38', head_control: 'no', roof_work: 'no', make: 'Holm', model: 'D-52', serial: '7731', coil_cleaning_rule: '4', coil_cleaning_last_done: '2026-02-10',
  },
  { customer: 'Juniper & Rye', kitchen: 'Juniper & Rye, Mill Street', unit: 'Walk-in cooler', tag: '', kind: 'walk_in_cooler', placement: 'back_of_house', refrigerant: 'R448A', charge_oz: '96', cutout_psig: '400', box_f: '36', head_control: 'yes', nominal_cooling_btuh: '9500', run_time_h: '16', air_profile: 'season', roof_work: 'yes', notes: 'Condensing unit on the roof, hatch above the dish room.' },
  { customer: 'Juniper & Rye', kitchen: 'Juniper & Rye, Mill Street', unit: 'Bar bottle cooler', kind: 'Undercounter', placement: 'Bar', refrigerant: 'R-134a', charge_oz: '7', coil_cleaning_rule: 'FREQ=MONTHLY;INTERVAL=6;BYDAY=1TU', coil_cleaning_anchor: 'calendar', coil_cleaning_first_due: '2026-04-07', evaporator_inspection_rule: 'none' },
]; // prettier-ignore

/** The columns of a template or an export: of those that give the same thing, the one in the reader's units. */
export const columnsIn = (own: MeasureUnits, kinds: readonly TaskKindInfo[]) =>
  allColumns(kinds).filter((c) => !c.in || c.in.unit === ownUnitOf(c.in.measure, own));

/** The file to start from: every column, three invented rows. */
export function template(kinds: readonly TaskKindInfo[]): string[][] {
  const columns = columnsIn({ temperature: 'F', pressure: 'psig', mass: 'oz' }, kinds);
  return [columns.map((c) => c.header), ...EXAMPLES.map((e) => columns.map((c) => e[c.header] ?? ''))];
}
