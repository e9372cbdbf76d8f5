import { z } from 'zod';
import { APPLICATIONS, CIRCUIT_ACCESS, CONDENSER_KINDS, EXPANSIONS, PLACEMENTS, UNIT_KINDS } from '../core/equipment/build';
import { TAG_FORM } from '../core/equipment/limits';
import { REFRIGERANTS } from '../core/refrigerants/catalogue';
import { Name, Ticked, Version, Words } from './fields';
import { CompressorMapEntry } from './compressor-map';
import { BoxSet, Charge, Cutout } from './measures';
import { LocalDateField } from './visits';

const Tag = z
  .string()
  .trim()
  .transform((t) => t.toUpperCase())
  .refine((t) => TAG_FORM.test(t), '2 to 40 letters, digits, dots, dashes and underscores.')
  .optional();

const fields = {
  name: Name('the unit'),
  tag: Tag,
  kind: z.enum(UNIT_KINDS, { error: 'Choose a kind.' }),
  placement: z.enum(PLACEMENTS, { error: 'Choose what its condenser breathes.' }),
  refrigerant: z
    .string({ error: 'Choose the refrigerant on the nameplate.' })
    .refine((id) => id in REFRIGERANTS, 'Choose one from the list.'),
  charge: Charge,
  application: z.enum(APPLICATIONS, { error: 'Choose one.' }),
  expansion: z.enum(EXPANSIONS, { error: 'Choose one.' }),
  circuitAccess: z.enum(CIRCUIT_ACCESS, { error: 'Choose one.' }),
  condenserKind: z.enum(CONDENSER_KINDS, { error: 'Choose one.' }),
  cutout: Cutout,
  boxSet: BoxSet,
  headControl: Ticked,
  roofWork: Ticked,
  make: Words(120),
  model: Words(120),
  serial: Words(120),
  notes: Words(),
  compressorMap: CompressorMapEntry,
};

type Raw = z.output<z.ZodObject<typeof fields>>;
const onFile = <T extends Raw>({ charge, cutout, boxSet, ...rest }: T) => ({
  ...rest,
  chargeKg: charge,
  cutoutPaGauge: cutout,
  boxSetK: boxSet,
});

export const NewUnit = z
  .object({ kitchenId: z.uuid(), ...fields, lastCleanedOn: LocalDateField.optional(), firstDueOn: LocalDateField.optional() })
  .transform(onFile);
export type NewUnit = z.output<typeof NewUnit>;

export const EditUnit = z.object({ id: z.uuid(), version: Version, ...fields }).transform(onFile);
export type EditUnit = z.output<typeof EditUnit>;
