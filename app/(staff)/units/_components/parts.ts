import { UNIT_KEYS, unitField, type UnitKey } from '@/lib/core/equipment/unit-fields';
import type { UnitField } from '@/lib/core/equipment/field';

/** The fields that stand together in one part of the form, in the order of the table. */
export const keysOfPart = (part: UnitField['part']): UnitKey[] => UNIT_KEYS.filter((key) => unitField(key).part === part);
