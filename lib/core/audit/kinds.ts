import { keysOf } from '../typed/closed-set';

/** Every kind of record of which it is written down who changed it, as people call it. */
export const RECORD_LABEL = {
  Customer: 'Customer',
  Kitchen: 'Kitchen',
  Unit: 'Unit',
  Task: 'Task of a unit',
  UnitChoice: 'Clean, repair or replace',
  RuleChange: 'Rule changes kept',
  Visit: 'Report of a visit',
  User: 'Person',
  Certificate: 'Certificate',
  Cylinder: 'Cylinder',
  OutboxMessage: 'Message',
  ImportRun: 'Sheet brought in',
  TravelTime: 'Driving minutes',
  TaskKind: 'Kind of task',
  ShopSettings: 'Shop',
  ArchiveRun: 'Everything as one file',
} as const;
export type RecordKind = keyof typeof RECORD_LABEL;
export const RECORD_KINDS = keysOf(RECORD_LABEL);
