import type { Stored } from './stored';
import { STORED_CHOICE } from './choices';
import { STORED_BASELINE, STORED_ESTIMATE } from './estimate';
import { STORED_FLEET_BELIEF, STORED_OWN_LIMITS, STORED_POSTERIOR } from './fouling';
import { STORED_CHOICES, STORED_MADE, STORED_REPORT, STORED_SHEETS } from './imports';
import { STORED_BOOKED, STORED_PROPOSAL } from './planning';
import { STORED_AUDIT_DETAIL, STORED_CHANGE_EVIDENCE, STORED_ENTERED, STORED_ENTRY_DETAIL, STORED_QUESTIONED, STORED_VISIT_EVENT } from './records'; // prettier-ignore
import { STORED_CANDIDATES } from './places';
import { STORED_QUOTE } from './quotes';
import { STORED_SEALED_WORK } from './sealed';
import { STORED_COMPRESSOR_MAP, STORED_HOURS, STORED_POLICY } from './shop';

/** Every Json column with what reads it, or why none of ours does. A test asks for each column of the schema. */
export const STORED_COLUMNS: Record<string, Pick<Stored<unknown>, 'name' | 'version' | 'read'> | string> = {
  'ShopSettings.policy': STORED_POLICY,
  'User.shifts': STORED_HOURS,
  'User.onCall': STORED_HOURS,
  'Kitchen.serviceHours': STORED_HOURS,
  'Unit.compressorMap': STORED_COMPRESSOR_MAP,
  'RuleChange.evidence': STORED_CHANGE_EVIDENCE,
  'VisitEvent.detail': STORED_VISIT_EVENT,
  'Reading.entered': STORED_ENTERED,
  'Reading.questioned': STORED_QUESTIONED,
  'Estimate.result': STORED_ESTIMATE,
  'Estimate.rise': 'A part of the result, kept by the database itself; read by what asks for it alone.',
  'UnitFouling.posterior': STORED_POSTERIOR,
  'UnitFouling.baseline': STORED_BASELINE,
  'UnitFouling.own': STORED_OWN_LIMITS,
  'FleetPrior.hyper': STORED_FLEET_BELIEF,
  'Entry.payload': 'Word for word what a tablet sent, also what nobody could read; its version is a column.',
  'Entry.detail': STORED_ENTRY_DETAIL,
  'PlanRun.params': STORED_BOOKED,
  'PlanRun.result': STORED_PROPOSAL,
  'ImportRun.problems': STORED_REPORT,
  'ImportRun.source': STORED_SHEETS,
  'ImportRun.choices': STORED_CHOICES,
  'ImportRun.made': STORED_MADE,
  'SheetMemory.choices': STORED_CHOICES,
  'AuditEntry.detail': STORED_AUDIT_DETAIL,
  'SealedStep.work': STORED_SEALED_WORK,
  'UnitChoice.figures': STORED_CHOICE,
  'Quote.lines': STORED_QUOTE,
  'PlaceLookup.candidates': STORED_CANDIDATES,
  'OwnerFigure.value': 'By its key: STORED_REPLAY or STORED_WORTH of ./figures.',
};
