import { z } from 'zod';
import { CompressorMapEntry } from './compressor-map';
import { Version } from '../values/fields';
import { UNIT_FORM } from './unit-field';
import { LocalDateField } from '../values/days';

const fields = { ...UNIT_FORM, compressorMap: CompressorMapEntry };

export const NewUnit = z.object({
  kitchenId: z.uuid(),
  ...fields,
  lastCleanedOn: LocalDateField.optional(),
  firstDueOn: LocalDateField.optional(),
});
export type NewUnit = z.output<typeof NewUnit>;

export const EditUnit = z.object({ id: z.uuid(), version: Version, ...fields });
export type EditUnit = z.output<typeof EditUnit>;
