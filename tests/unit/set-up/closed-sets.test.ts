import { expect, it } from 'vitest';
import { VERDICTS } from '@/lib/core/condenser/types';
import { TRIP_CAUSES } from '@/lib/core/findings/trip-causes';
import { ENTERED_EVENTS, UNIT_EVENT_LABEL } from '@/lib/core/entries/entries';
import { IMPORT_STATUSES } from '@/lib/core/fleet-csv';
import { RULE_CHANGE_LABEL, RULE_REVIEW_LABEL } from '@/lib/core/intervals/changes';
import { MASS_UNITS, PRESSURE_UNITS, TEMPERATURE_UNITS } from '@/lib/core/measures/preferred';
import { DATE_HABITS } from '@/lib/core/measures/habits';
import { REGION_NAMES } from '@/lib/core/measures/region';
import { FORESIGHT_BY } from '@/lib/core/owner/judged';
import { PART_PLACES } from '@/lib/core/parts';
import { SKILLS } from '@/lib/core/people/skills';
import { PLAN_STATUSES } from '@/lib/core/planning/proposal';
import { CUSTOMER_REPLIES } from '@/lib/core/visits/events';
import { enumOf } from '../../support/prisma-schema';

const SETS: Record<string, readonly string[]> = {
  UnitEventKind: Object.keys(UNIT_EVENT_LABEL),
  TripCause: TRIP_CAUSES,
  RuleChangeKind: Object.keys(RULE_CHANGE_LABEL),
  RuleReview: Object.keys(RULE_REVIEW_LABEL),
  CustomerReply: CUSTOMER_REPLIES,
  PlanStatus: PLAN_STATUSES,
  ImportStatus: IMPORT_STATUSES,
  Verdict: VERDICTS,
  PartPlace: PART_PLACES,
  Skill: SKILLS,
  TemperatureUnit: TEMPERATURE_UNITS,
  PressureUnit: PRESSURE_UNITS,
  MassUnit: MASS_UNITS,
  Region: REGION_NAMES,
  DateHabit: DATE_HABITS,
  ForesightBy: FORESIGHT_BY,
};

it.each(Object.keys(SETS))('%s is the same set in the program and in the database', (name) => {
  expect(SETS[name]).toEqual(enumOf(name));
});

it('what a technician writes down of a unit is among what can happen to it', () => {
  expect(ENTERED_EVENTS.every((kind) => kind in UNIT_EVENT_LABEL)).toBe(true);
});
