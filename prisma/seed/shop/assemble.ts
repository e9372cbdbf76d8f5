import { kmFrom, REGIONS } from '../../../lib/core/measures/region';
import { STORED_HOURS } from '../../../lib/database/stored/shop';
import { RandomStream } from '../../../lib/core/numerics/random';
import { usualTasks } from '../../../lib/core/tasks/kinds';
import { fahrenheitToKelvin } from '../../../lib/core/measures';
import { instantOf, weeksRule, type LocalDate } from '../../../lib/core/calendar';
import type { Prisma } from '../../../lib/database/generated/client';
import { customerRow, kitchenRow, taskRow, unitRow, weeklyHours } from '../rows';
import { CITY, KITCHENS, type KitchenSeed } from './kitchens';
import { unitDetails } from './units';

type Rows = {
  customers: Prisma.CustomerCreateManyInput[];
  kitchens: Prisma.KitchenCreateManyInput[];
  units: Prisma.UnitCreateManyInput[];
  tasks: Prisma.TaskCreateManyInput[];
};
export type Placed = {
  seed: KitchenSeed;
  kitchen: Prisma.KitchenCreateManyInput;
  units: { row: Prisma.UnitCreateManyInput; tasks: Prisma.TaskCreateManyInput[] }[];
};

/** How the demo's vans get about. */
export const DEMO_TRAVEL = { circuity: 1.3, speedKmh: kmFrom(28, 'mi') };

const SETTINGS = {
  id: 1,
  name: 'Larkspur Cold Service',
  timeZone: CITY.timeZone,
  currency: 'USD',
  region: 'us' as const,
  dates: REGIONS.us.dates,
  lat: CITY.lat,
  lng: CITY.lng,
  phone: '+1 555 0100',
  email: 'desk@larkspurcold.example',
  ...DEMO_TRAVEL,
  overShiftMinutes: 60,
  labourPerHour: 48,
  vehiclePerKm: 0.7 / 1.609344,
  energyPricePerKwh: 0.14,
  // Whoever tries the demo out has no telephone set up for it, and its passwords are printed.
  ownersGiveCode: false,
  policy: { cleaningCost: 60, inspectionCost: 25, failureCost: 1200 },
};
export const shopSettings = SETTINGS satisfies Prisma.ShopSettingsCreateManyInput;

const midnight = (d: LocalDate) => new Date(`${d}T00:00:00Z`);

/** Customers, kitchens, units and their tasks as they stood on the day the record starts. */
export function assemble(seed: number, startedOn: LocalDate): Rows & { placed: Placed[] } {
  const rows: Rows = { customers: [], kitchens: [], units: [], tasks: [] };
  const placed: Placed[] = [];
  const createdAt = new Date(instantOf(startedOn, '12:00', CITY.timeZone));
  KITCHENS.forEach((k, n) => {
    const random = new RandomStream(seed, `kitchen ${k.customer} ${k.name}`);
    let customer = rows.customers.find((c) => c.name === k.customer);
    if (!customer) {
      customer = customerRow({
        id: random.uuid(),
        name: k.customer,
        contactName: k.contact[0],
        phone: k.contact[1],
        email: `${k.contact[0].toLowerCase().replace(/[^a-z]+/g, '.')}@kitchen.example`,
        createdAt,
      });
      rows.customers.push(customer);
    }
    const kitchen = kitchenRow(customer.id as string, {
      id: random.uuid(),
      name: k.name,
      address: k.address,
      lat: k.lat,
      lng: k.lng,
      altitudeM: k.altitudeM,
      timeZone: CITY.timeZone,
      accessNotes: k.access,
      contactName: k.contact[0],
      contactPhone: k.contact[1],
      contactEmail: customer.email,
      energyPricePerKwh: k.price,
      hotDayAirK: fahrenheitToKelvin(k.hotDayF),
      serviceHours: STORED_HOURS.write(weeklyHours(k.hours[0], k.hours[1], k.sundays ? [0, 1, 2, 3, 4, 5, 6] : [0, 1, 2, 3, 4, 5])),
      createdAt,
    });
    rows.kitchens.push(kitchen);
    const units = k.units.map((u, i) => {
      const own = new RandomStream(seed, `unit ${k.customer} ${k.name} ${u[2]} ${i}`);
      const tag = `L${String(n + 1).padStart(2, '0')}-${String(i + 1).padStart(2, '0')}`;
      const row = unitRow(kitchen.id as string, { id: own.uuid(), tag, name: u[2], ...unitDetails(u, own), createdAt });
      const tasks = usualTasks({ condenserKind: 'fin_and_tube', ...row, kind: u[0] }).map((kindKey) => {
        const weeks = kindKey === 'coil_cleaning' ? k.startWeeks : kindKey === 'ice_machine_cleaning' ? 26 : 13;
        const contract = kindKey === 'ice_machine_cleaning' || (k.customer === 'St Brannoc’s Infirmary' && kindKey !== 'coil_cleaning');
        return taskRow(
          { id: row.id as string, kitchenId: kitchen.id as string },
          {
            id: own.uuid(),
            kindKey,
            rule: contract ? `FREQ=MONTHLY;INTERVAL=${kindKey === 'ice_machine_cleaning' ? 6 : 3}` : weeksRule(weeks),
            anchor: contract ? 'calendar' : 'last_completed',
            anchorDate: midnight(startedOn),
            dueOn: midnight(startedOn),
            minWeeks: kindKey === 'ice_machine_cleaning' ? 8 : 2,
            maxWeeks: kindKey === 'coil_cleaning' ? 52 : 26,
            createdAt,
          },
        );
      });
      rows.units.push(row);
      rows.tasks.push(...tasks);
      return { row, tasks };
    });
    placed.push({ seed: k, kitchen, units });
  });
  return { ...rows, placed };
}
