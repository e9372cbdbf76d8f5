import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { AnswerQuoteOnPage, AnswerVisit, AskToBeRung, MakePage, RevokePage } from '@/lib/schemas/customers/customer-pages';
import { Archive, EditCustomer, NewCustomer, Restore, SetSending } from '@/lib/schemas/customers/customers';
import { AcceptPlaces, AnswerChange, Arrivals, EditKitchen, FindPlaces, KitchenChanged, NewBlackout, NewKitchen, OneKitchen, RemoveBlackout, SetPosition } from '@/lib/schemas/customers/kitchens'; // prettier-ignore
import { CustomerReply } from '@/lib/schemas/customers/links';
import { RevokeQuarter, SendQuarter } from '@/lib/schemas/customers/quarters';
import { RevokeReport, SendReport } from '@/lib/schemas/customers/reports';
import { ChoiceFigures, DecideUnit, LookAgain } from '@/lib/schemas/equipment/choices';
import { CheckFleet, RunFleet, SheetChoice } from '@/lib/schemas/equipment/fleet-csv';
import { EditUnit, NewUnit } from '@/lib/schemas/equipment/equipment';
import { CylinderGone, CylinderPlace, NewCertificate, NewCylinder, NewCylinderEntry, NewLeakTest, SetLeakRules, TakeEntryBack, WithdrawCertificate } from '@/lib/schemas/equipment/refrigerant-book'; // prettier-ignore
import { EditJob, JobStepTaken, PutOnVisit, TakeCall } from '@/lib/schemas/jobs/jobs';
import { AnswerQuote, ChooseTime, ChooseTimeOnPage, SaveQuote, SendQuote } from '@/lib/schemas/jobs/quotes';
import { SendAway, UndoAway } from '@/lib/schemas/people/absences';
import { FeedOf, FeedsFor } from '@/lib/schemas/people/feeds';
import { AskForLink, ChangePassword, ChoosePassword, ConfirmSecondStep, EditPerson, EndMySession, EndSession, MyArrivals, MyUnits, NewPerson, NewTimeOff, OwnersCode, PersonId, ProveIt, RemoveTimeOff, SetActive, SetPassword } from '@/lib/schemas/people/people'; // prettier-ignore
import { DecideMessage } from '@/lib/schemas/shop/messages';
import { AddWarranty, MovePart, PartFile, SavePart } from '@/lib/schemas/shop/parts';
import { EditShop, ReportLook, SetCosts, SetUp, WeeklyLetter } from '@/lib/schemas/shop/shop';
import { AcceptPlan, PlanId, StartPlan } from '@/lib/schemas/visits/planning';
import { SqueezeAsk, SqueezeTake } from '@/lib/schemas/visits/squeeze';
import { AcceptChanges, EditRule, EditTaskKind, LockRule, NewTask, NewTaskKind, RemoveTask, ReviewChange, SettleJob } from '@/lib/schemas/visits/tasks'; // prettier-ignore
import { TravelFile } from '@/lib/schemas/visits/travel';
import { BookVisit, CancelVisit, ChangeVisit, GiveVisit, MoveVisit, RestoreVisit, ReviseVisit } from '@/lib/schemas/visits/visits';
import { send, type Sent } from './support/send';

/**
 * Every form with nothing in it but what it cannot do without: what is asked for in which words when one of these is left out, what
 * nonsense in its place is told, and what the rest becomes.
 */

const ID = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';
const ON = '2026-11-02';
const A = 'a@b.example';

/** `words`: what a person is told without it; null where no person fills it in, so that nothing needs to be said. */
type Needed = [field: string, fits: string | string[], words: string | null];
type Empty = [name: string, schema: z.ZodType, needed: Needed[], becomes: object];

const id = (field = 'id'): Needed => [field, ID, null];
const version: Needed = ['version', '3', null];
const token: Needed = ['token', 't', null];
const HELD = { id: ID, version: 3 };
const name = (what: string): Needed => ['name', 'Larkspur', `Give ${what} a name.`];
const date = (field: string): Needed => [field, ON, 'Give a date as year-month-day.'];
const slot: Needed[] = [
  ['technicianId', ID, 'Choose a technician.'],
  date('date'),
  ['from', '09:30', 'Give a time as hours and minutes, for instance 09:30.'],
  ['minutes', '45', 'Give the minutes as a number.'],
];
const SLOT = { technicianId: ID, date: ON, from: '09:30', minutes: 45 };
const reason = (words: string, field = 'reason'): Needed => [field, 'Because', words];

const CUSTOMER = { name: 'Larkspur', contactName: '', email: '', phone: '', notes: '', language: 'en' };
const zone: Needed = ['timeZone', 'UTC', 'Choose a time zone.'];
const KITCHEN = { name: 'Larkspur', address: '', timeZone: 'UTC', serviceHours: [], accessNotes: '', contactName: '', contactPhone: '', contactEmail: '', altitudeM: 304.8, hotDayAirK: 308.15, lat: null, lng: null, shortCode: '', energyPricePerKwh: null, preferredWeekday: null }; // prettier-ignore
const kitchen: Needed[] = [name('the kitchen'), zone, ['altitude.unit', 'ft', null], ['altitude.value', '1000', null], ['hotDayAir.unit', 'F', null]]; // prettier-ignore
const unit: Needed[] = [name('the unit'), ['kind', 'reach_in', 'Choose: kind.'], ['placement', 'line', 'Choose: placement.'], ['refrigerant', 'R404A', 'Choose the refrigerant on the nameplate.'], ['application', 'low', 'Choose: temperature.'], ['expansion', 'valve', 'Choose: expansion.'], ['circuitAccess', 'ports', 'Choose: circuit.'], ['condenserKind', 'fin_and_tube', 'Choose: condenser.'], ...['chargeKg:kg', 'cutoutPaGauge:psig', 'boxSetK:F', 'nominalCoolingW:W', 'runHoursPerDay:h', 'airOverRoomK:F'].map((one): Needed => { const [key = '', of = ''] = one.split(':'); return [`${key}.unit`, of, null]; })]; // prettier-ignore
const UNIT = { name: 'Larkspur', tag: undefined, kind: 'reach_in', placement: 'line', refrigerant: 'R404A', chargeKg: null, application: 'low', expansion: 'valve', circuitAccess: 'ports', condenserKind: 'fin_and_tube', cutoutPaGauge: null, boxSetK: null, headControl: null, nominalCoolingW: null, runHoursPerDay: null, airOverRoomK: null, airProfile: null, thermometerClass: null, roofWork: false, make: '', model: '', serial: '', notes: '', compressorMap: null }; // prettier-ignore
const mass = (field: string, value: string, words: string): Needed[] => [
  [`${field}.unit`, 'kg', null],
  [`${field}.value`, value, words],
];
const person: Needed[] = [['name', 'Rosa', 'Give the name.'], ['email', 'R@B.example', 'Give an e-mail address.'], ['role', 'technician', 'Choose a role.']]; // prettier-ignore
const PERSON = { name: 'Rosa', email: 'r@b.example', role: 'technician', alsoVisits: false, skills: [], shifts: [], onCall: [], phone: '', gaugeGrade: '1A', gaugeSpanPa: 3_447_379, homeLat: null, homeLng: null }; // prettier-ignore
const years = (field: string): Needed => [field, '10', 'Write the years.'];
const figures: Needed[] = [['coilPrice', '900', 'Give the price of a coil or of a unit.'], years('coilYears'), years('unitYears'), years('leftYears'), ['callOut', '120', 'Write a number.'], ['refrigerantPerKg', '30', 'Write a number.'], ['interest', '6', 'Write a percentage.']]; // prettier-ignore
const FIGURES = { coilPrice: 900, coilYears: 10, unitPrice: null, unitYears: 10, leftYears: 10, useKwh: null, newKwh: null, callOut: 120, refrigerantPerKg: 30, interest: 0.06 }; // prettier-ignore
const weeks = (field: string, value: string): Needed => [field, value, 'Write the weeks as a whole number.'];
const kind: Needed[] = [['label', 'Gaskets', 'Give it a name.'], ['minutes', '10', 'Write the minutes.'], weeks('defaultWeeks', '13'), weeks('minWeeks', '4'), weeks('maxWeeks', '26')]; // prettier-ignore
const KIND = { label: 'Gaskets', minutes: 10, lowSide: false, defaultWeeks: 13, minWeeks: 4, maxWeeks: 26 };
const often: Needed[] = [
  ['weeks', '8', 'Write how many weeks lie between two times.'],
  ['anchor', 'calendar', 'Choose one.'],
];
const RULE = { anchor: 'calendar', firstDueOn: undefined, rule: 'FREQ=WEEKLY;INTERVAL=8' };
const cost = (field: string, words: string): Needed => [field, '20', words];
const currency: Needed = ['currency', 'usd', 'Give the currency as three letters.'];

const FORMS: Empty[] = [
  ['a customer', NewCustomer, [name('the customer')], CUSTOMER],
  ['a customer on file', EditCustomer, [id(), version, name('the customer')], { ...HELD, ...CUSTOMER }],
  ['what a customer is sent', SetSending, [id()], { id: ID, sendsReports: false, sendsQuarters: false }],
  ['taking off file', Archive, [id(), version, reason('Say why it is taken off file.')], { ...HELD, reason: 'Because' }],
  ['putting back', Restore, [id(), version], HELD],
  ['a page', MakePage, [id('customerId'), ['holder', 'Jo', 'Say whom it is for.'], ['language', 'es', 'Choose a language.']], { customerId: ID, kitchenId: undefined, holder: 'Jo', toEmail: '', language: 'es', answersQuotes: false }],
  ['a page taken back', RevokePage, [id()], { id: ID }],
  ['a call from a page', AskToBeRung, [token, id('once'), ['kitchenId', ID, 'kitchen'], ['what', 'Ice', 'what'], ['urgency', 'now', 'urgency'], ['name', 'Jo', 'name'], ['phone', '55501', 'phone']], { token: 't', once: ID, kitchenId: ID, what: 'Ice', urgency: 'now', name: 'Jo', phone: '55501' }],
  ['a visit answered on a page', AnswerVisit, [token, id('visitId'), ['answer', 'confirmed', null]], { token: 't', visitId: ID, answer: 'confirmed', note: '' }],
  ['a quote answered on a page', AnswerQuoteOnPage, [token, id('quoteId'), ['answer', 'declined', null], ['name', 'Jo', 'name']], { token: 't', quoteId: ID, answer: 'declined', name: 'Jo', note: '' }],
  ['a visit answered', CustomerReply, [token, ['answer', 'confirmed', 'two']], { token: 't', answer: 'confirmed', note: '' }],
  ['a quote answered', AnswerQuote, [token, ['answer', 'accepted', 'two'], ['name', 'Jo', 'name']], { token: 't', answer: 'accepted', name: 'Jo', note: '' }],
  ['a kitchen', NewKitchen, [id('customerId'), ...kitchen], { customerId: ID, ...KITCHEN }],
  ['a kitchen on file', EditKitchen, [id(), version, ...kitchen], { ...HELD, ...KITCHEN }],
  ['closed days', NewBlackout, [id('kitchenId'), date('from'), date('to')], { kitchenId: ID, from: ON, to: ON, reason: '' }],
  ['closed days taken off', RemoveBlackout, [id()], { id: ID }],
  ['what changed', KitchenChanged, [id('kitchenId'), date('since'), ['breathes', 'more', null], ['what', 'Fryer', 'Say what changed.']], { kitchenId: ID, since: ON, breathes: 'more', what: 'Fryer' }],
  ['what changed, asked', AnswerChange, [id(), ['answer', 'menu', 'Choose what changed, or that nothing did.']], { id: ID, answer: 'menu' }],
  ['an address', FindPlaces, [['address', 'Oslo', 'Write the address first.']], { address: 'Oslo' }],
  ['one kitchen', OneKitchen, [id('kitchenId')], { kitchenId: ID }],
  ['a position', SetPosition, [id('kitchenId'), ['text', '1, 2', 'Paste a position first.']], { kitchenId: ID, text: '1, 2' }],
  ['a quarter', SendQuarter, [id('customerId'), date('quarter'), ['toEmail', A, 'Give an e-mail address.'], ['language', 'en', 'Choose a language.']], { customerId: ID, quarter: { startsOn: '2026-10-01', endsBefore: '2027-01-01' }, toEmail: A, language: 'en' }],
  ['a quarter taken back', RevokeQuarter, [id()], { id: ID }],
  ['a report', SendReport, [id('visitId'), ['toEmail', A, 'Give an e-mail address.'], ['language', 'en', 'Choose a language.']], { visitId: ID, toEmail: A, language: 'en' }],
  ['a report taken back', RevokeReport, [id()], { id: ID }],
  ['a comparison', ChoiceFigures, figures, FIGURES],
  ['a decision', DecideUnit, [...figures.slice(1), id('unitId'), ['way', 'go_on', 'Choose a way.'], reason('Say why.')], { ...FIGURES, coilPrice: null, unitId: ID, way: 'go_on', reason: 'Because' }],
  ['another look at a decision', LookAgain, [id(), reason('Say what you think of it today.', 'note')], { id: ID, note: 'Because' }],
  ['a run of a sheet', RunFleet, [id('runId')], { runId: ID }],
  ['a unit', NewUnit, [id('kitchenId'), ...unit], { kitchenId: ID, ...UNIT }],
  ['a unit on file', EditUnit, [id(), version, ...unit], { ...HELD, ...UNIT }],
  ['a cylinder', NewCylinder, [['label', 'C', 'Give what is written on it.'], ['refrigerant', 'R290', 'Choose the gas.'], ['contents', 'new', 'New or recovered?'], ...mass('tare', '5', 'Give the weight of the empty cylinder.'), ...mass('gross', '9', 'Weigh it as it is.'), ...mass('most', '10', 'Give the most gas it may hold.')], { label: 'C', refrigerant: 'R290', contents: 'new', tare: 5, gross: 9, most: 10, withUserId: null, note: '' }],
  ['gas moved', NewCylinderEntry, [id('cylinderId'), ['way', 'charged', 'Say what happened.'], ...mass('kg', '2', 'Give the weight.'), date('on')], { cylinderId: ID, way: 'charged', kg: 2, gross: null, unitTag: '', recoveredFor: null, certificateId: null, overruledBy: '', overruledWhy: '', on: ON, note: '' }],
  ['a line taken back', TakeEntryBack, [id('entryId'), reason('Say what was wrong with it.', 'why')], { entryId: ID, why: 'Because' }],
  ['a cylinder gone', CylinderGone, [id(), version, reason('Say where it went.', 'why')], { ...HELD, why: 'Because' }],
  ['a cylinder’s place', CylinderPlace, [id(), version], { ...HELD, withUserId: null }],
  ['rules about leaks', SetLeakRules, [['leakRuleSet', 'eu', null], ['leakMethod', 'annualizing', null]], { leakRuleSet: 'eu', leakMethod: 'annualizing' }],
  ['a leak test', NewLeakTest, [id('unitId'), date('on'), ['kind', 'initial', null], ['passed', 'no', null]], { unitId: ID, on: ON, kind: 'initial', passed: 'no', how: '' }],
  ['a certificate', NewCertificate, [id('userId'), ['kind', 'us_608_universal', 'Choose what it is.'], ['number', '7', 'Give its number.']], { userId: ID, kind: 'us_608_universal', number: '7', expiresOn: null }],
  ['a certificate withdrawn', WithdrawCertificate, [id()], { id: ID }],
  ['a call', TakeCall, [['kitchenId', ID, 'Choose a kitchen.'], ['what', 'Hot', 'Say what is wrong.'], ['urgency', 'now', 'Say how soon.']], { kitchenId: ID, unitIds: [], what: 'Hot', urgency: 'now', source: 'call', callerName: '', callerPhone: '' }],
  ['a step of a job', JobStepTaken, [id('jobId'), ['from', 'asked', null], ['step', 'looked_at', null]], { jobId: ID, from: 'asked', step: 'looked_at', reason: '' }],
  ['a job on file', EditJob, [id('jobId'), version, ['what', 'Hot', 'Say what is wrong.'], ['urgency', 'now', null]], { jobId: ID, version: 3, what: 'Hot', urgency: 'now', unitIds: [] }],
  ['a job on a visit', PutOnVisit, [id('jobId'), ['visitId', ID, 'Choose a visit.']], { jobId: ID, visitId: ID }],
  ['a quote', SaveQuote, [id('jobId'), ['lines[0].kind', 'labour', null], ['lines[0].what', 'Hours', 'Say what it is.'], ['lines[0].quantity', '2', 'How many?'], ['lines[0].price', '90', 'Write a price.'], date('validUntil'), ['reason', 'It is dead. It must turn.', 'Say why, in two sentences.']], { jobId: ID, lines: [{ kind: 'labour', what: 'Hours', partNumber: '', quantity: 2, unit: '', price: 9000, taxed: false }], taxPercent: 0, validUntil: ON, reason: 'It is dead. It must turn.', photoIds: [] }],
  ['a quote sent', SendQuote, [id('quoteId')], { quoteId: ID, to: '' }],
  ['a time chosen', ChooseTime, [token, ['startsAt', '5', 'choose']], { token: 't', startsAt: 5, otherTime: '' }],
  ['a time chosen on a page', ChooseTimeOnPage, [token, id('quoteId'), ['startsAt', '5', 'choose']], { token: 't', quoteId: ID, startsAt: 5, otherTime: '' }],
  ['an absence undone', UndoAway, [id('absenceId')], { absenceId: ID }],
  ['a calendar for all', FeedsFor, [['whose', 'kitchens', null]], { whose: 'kitchens' }],
  ['a person', NewPerson, person, { ...PERSON, password: '' }],
  ['a person on file', EditPerson, [id(), version, ...person], { ...HELD, ...PERSON }],
  ['who may sign in', SetActive, [id(), version, ['active', 'no', null]], { ...HELD, active: 'no' }],
  ['a password', SetPassword, [id(), ['password', 'river lamp seven tall', 'Give a password.']], { id: ID, password: 'river lamp seven tall' }],
  ['owners’ second step', OwnersCode, [], { ownersGiveCode: false }],
  ['a session of somebody ended', EndSession, [id('userId')], { userId: ID }],
  ['days off', NewTimeOff, [id('userId'), date('from'), date('to')], { userId: ID, from: ON, to: ON, reason: '' }],
  ['days off taken back', RemoveTimeOff, [id()], { id: ID }],
  ['one’s own units', MyUnits, [['temperatureUnit', 'F', null], ['pressureUnit', 'psig', null], ['massUnit', 'oz', null]], { temperatureUnit: 'F', pressureUnit: 'psig', massUnit: 'oz' }],
  ['one’s own arrivals', MyArrivals, [], { sharesArrivals: false }],
  ['one’s own password', ChangePassword, [['current', 'as it was', 'Give the password you have now.'], ['password', 'as it will be', 'Give a password.']], { current: 'as it was', password: 'as it will be' }],
  ['one’s own session ended', EndMySession, [], {}],
  ['the password once more', ProveIt, [['password', 'x', 'Give your password.']], { password: 'x' }],
  ['one person', PersonId, [id()], { id: ID }],
  ['a link asked for', AskForLink, [['email', 'R@B.example', 'Give an e-mail address.']], { email: 'r@b.example' }],
  ['a password chosen', ChoosePassword, [token, ['password', 'x', 'Give a password.']], { token: 't', password: 'x' }],
  ['the second step', ConfirmSecondStep, [['secret', 'A2'.repeat(16), null], ['code', '123456', 'Give the six digits.']], { secret: 'A2'.repeat(16), code: '123456' }],
  ['a message', DecideMessage, [id('messageId'), ['decision', 'again', null]], { messageId: ID, decision: 'again' }],
  ['a part', SavePart, [['number', 'F', 'Give it a number.'], ['name', 'Fan', 'Give it a name.'], ['price', '12.5', 'Write a price.']], { number: 'F', name: 'Fan', price: 1250 }],
  ['a part that moves', MovePart, [['number', 'F', 'Which part?'], ['pieces', '2', 'How many?'], ['to', 'van', 'Choose two places.']], { number: 'F', pieces: 2, from: '', to: 'van' }],
  ['a file of parts', PartFile, [['csv', 'a,b', 'Choose a file or paste its lines.']], { csv: 'a,b' }],
  ['a warranty', AddWarranty, [id('jobId'), ['unitId', ID, 'Choose a unit.'], ['what', 'Fan', 'Say what is covered.'], ['until', ON, 'Give a date as year-month-day.']], { jobId: ID, unitId: ID, what: 'Fan', until: ON, note: '' }],
  ['the shop', EditShop, [name('the shop'), zone, currency, ['overdueLimitDays', '14', 'Write the days.'], ['overShiftMinutes', '0', 'Write the minutes.'], ['circuity', '1.3', 'Write a number.'], ['region', 'gb', 'Choose where the shop works.'], ['dates', 'day_first', 'Choose how dates are written.'], ['speed', '40', 'Write a number.'], ['distance', 'km', null], ['seen', '1', null]], { name: 'Larkspur', timeZone: 'UTC', currency: 'USD', phone: '', email: '', lat: null, lng: null, overdueLimitDays: 14, overShiftMinutes: 0, remindDayBefore: false, circuity: 1.3, region: 'gb', dates: 'day_first', speedKmh: 40, seen: '1' }],
  ['what things cost', SetCosts, [['seen', '1', null], cost('labourPerHour', 'Give what an hour of a technician costs you.'), cost('vehicle', 'Give what a mile or kilometre of driving costs.'), ['distance', 'km', null], cost('cleaningCost', 'Give what one coil cleaning costs you.'), cost('inspectionCost', 'Give what one look at a drain or evaporator costs you.'), cost('failureCost', 'Give what a breakdown costs.'), ['energyPricePerKwh', '0.2', 'Give the price of a kilowatt-hour.']], { seen: '1', labourPerHour: 20, vehiclePerKm: 20, cleaningCost: 20, inspectionCost: 20, failureCost: 20, energyPricePerKwh: 0.2 }],
  ['setting up', SetUp, [['code', '2718', 'Type the code that was printed when Rimebook started.'], ['shop', 'Larkspur', 'Give the shop a name.'], zone, currency, ['name', 'Maren', 'Give your name.'], ['email', A, 'Give an e-mail address.'], ['password', 'river lamp seven tall', 'Give a password.']], { code: '2718', shop: 'Larkspur', timeZone: 'UTC', currency: 'USD', name: 'Maren', email: A, password: 'river lamp seven tall' }],
  ['the look of reports', ReportLook, [['seen', '1', null]], { seen: '1', reportWords: '' }],
  ['the letter on Mondays', WeeklyLetter, [], { weeklyLetter: false }],
  ['a plan asked for', StartPlan, [date('day')], { day: ON }],
  ['a plan', PlanId, [id('runId')], { runId: ID }],
  ['an emergency', SqueezeAsk, [['kitchenId', ID, 'Choose a kitchen.'], ['what', 'Hot', 'Say what is wrong.'], ...slot.slice(1)], { kitchenId: ID, unitIds: [], taskIds: [], what: 'Hot', minutes: 45, date: ON, from: '09:30', anyHour: false }],
  ['a task', NewTask, [id('unitId'), ['kindKey', 'coil_cleaning', 'Choose what is to be done.'], ...often], { unitId: ID, kindKey: 'coil_cleaning', ...RULE }],
  ['a rule', EditRule, [id('taskId'), version, ...often, weeks('minWeeks', '4'), weeks('maxWeeks', '26'), reason('Say why the rule changes; it stays with the history.')], { taskId: ID, version: 3, minWeeks: 4, maxWeeks: 26, reason: 'Because', ...RULE }],
  ['a rule locked', LockRule, [id('taskId'), version, ['lock', 'unlock', null], reason('Say why; it stays with the history.')], { taskId: ID, version: 3, lock: 'unlock', reason: 'Because' }],
  ['a task taken off', RemoveTask, [id('taskId'), version, reason('Say why it is taken off.')], { taskId: ID, version: 3, reason: 'Because' }],
  ['a change kept', ReviewChange, [id('changeId'), ['verdict', 'accepted', null]], { changeId: ID, verdict: 'accepted' }],
  ['a change overruled', ReviewChange, [id('changeId'), ['verdict', 'overruled', null], reason('Say why it is overruled; it stays with the history.')], { changeId: ID, verdict: 'overruled', reason: 'Because' }],
  ['a kind of task', NewTaskKind, kind, KIND],
  ['a kind of task on file', EditTaskKind, [['key', 'gaskets', null], ...kind], { key: 'gaskets', active: false, ...KIND }],
  ['a job settled', SettleJob, [id('jobId'), ['as', 'declined', null]], { jobId: ID, as: 'declined', note: '' }],
  ['changes kept', AcceptChanges, [['changeIds', ID, null]], { changeIds: [ID] }],
  ['a file of driving', TravelFile, [['csv', 'a,b', 'Choose a file or paste its lines.']], { csv: 'a,b' }],
  ['a visit', BookVisit, [id('kitchenId'), ...slot, ['taskIds', [ID], 'Choose at least one task.']], { kitchenId: ID, ...SLOT, taskIds: [ID], note: '', fixed: false, anyway: false }],
  ['a visit moved', MoveVisit, [id('visitId'), version, ...slot, reason('Say why it moves.')], { visitId: ID, version: 3, ...SLOT, reason: 'Because', anyway: false }],
  ['a visit cancelled', CancelVisit, [id('visitId'), version, reason('Say why it is cancelled.')], { visitId: ID, version: 3, reason: 'Because' }],
  ['a visit given away', GiveVisit, [id('visitId'), version, ['technicianId', ID, 'Choose a technician.'], reason('Say why someone else has it.')], { visitId: ID, version: 3, technicianId: ID, reason: 'Because' }],
  ['a visit changed', ChangeVisit, [id('visitId'), version, ['minutes', '45', 'Give the minutes as a number.']], { visitId: ID, version: 3, taskIds: [], minutes: 45, note: '', fixed: false }],
  ['a visit put back', RestoreVisit, [id('visitId'), version], { visitId: ID, version: 3 }],
  ['a visit revised', ReviseVisit, [id('visitId')], { visitId: ID }],
]; // prettier-ignore

/** What no person types: an id, what the page was drawn from, a unit or a word chosen from a list. */
const HIDDEN =
  /^(id|\w+Ids?|version|token|once|seen|secret|key|lines.*kind|\w+\.unit|form|answer|verdict|lock|as|active|decision|passed|kind|whose|from|breathes|step|urgency|distance|to|startsAt|leak\w+|\w+Unit)$/;
/** As the library that checks would say it, in nobody's language. */
const NOBODYS = /^(Invalid|Too (big|small)|Expected|Unrecognized)|expected/;

const isId = ([, fits]: Needed) => fits === ID;

describe.each(FORMS)('%s', (_, schema, needed, becomes) => {
  const filled: Sent = Object.fromEntries(needed.map(([field, fits]) => [field, fits]));
  it('goes in with what it needs, and the rest becomes what nothing means', () => {
    const { value, error } = send(schema, filled);
    expect(error).toEqual({});
    expect(value).toEqual(becomes);
  });
  it('tells whoever typed nonsense so in words of its own', () => {
    for (const [field, fits] of needed.filter(([one]) => !HIDDEN.test(one)))
      for (const nonsense of ['', ' ', 'x', 'n'.repeat(20_000), '-1e99', '1e99', '0.0001', '31/31/2026'])
        for (const words of Object.values(send(schema, { ...filled, [field]: Array.isArray(fits) ? [nonsense] : nonsense }).error).flat()) expect(words, `${field} ${nonsense.slice(0, 20)}`).not.toMatch(NOBODYS); // prettier-ignore
  });
  for (const one of needed) {
    const [field, , words] = one;
    const unit = field.endsWith('.unit') || (field.endsWith('.value') && words === null);
    if (!unit)
      it(`asks for ${field}`, () => {
        const { error } = send(schema, { ...filled, [field]: '' });
        if (words === null) expect(Object.keys(error).some((key) => key.startsWith(field.split(/[.[]/)[0] ?? ''))).toBe(true);
        else expect(Object.values(error).flat()).toContain(words);
      });
    if (isId(one)) it(`takes no nonsense for ${field}`, () => expect(Object.keys(send(schema, { ...filled, [field]: 'first' }).error)[0]).toMatch(new RegExp(`^${field}`))); // prettier-ignore
  }
});

describe('what is chosen from a list', () => {
  const refused = (schema: z.ZodType, filled: Sent, field: string) => send(schema, { ...filled, [field]: 'other_one' }).error;
  it('takes nothing else', () => {
    for (const [called, schema, needed] of FORMS) {
      const filled: Sent = Object.fromEntries(needed.map(([field, fits]) => [field, fits]));
      const lists = ['leakRuleSet', 'leakMethod', 'kind', 'passed', 'way', 'contents', 'urgency', 'step', 'role', 'active', 'temperatureUnit', 'pressureUnit', 'massUnit', 'decision', 'region', 'dates', 'distance', 'anchor', 'lock', 'verdict', 'as', 'answer', 'breathes', 'language', 'whose', 'placement', 'application', 'expansion', 'circuitAccess', 'condenserKind', 'altitude.unit', 'hotDayAir.unit', 'chargeKg.unit', 'boxSetK.unit']; // prettier-ignore
      for (const field of lists.filter((one) => one in filled)) expect(Object.keys(refused(schema, filled, field)), `${called}: ${field}`).toContain(field); // prettier-ignore
    }
  });
  it('is told in the words of the form where a person chooses', () => {
    const call = { kitchenId: ID, what: 'Hot', urgency: 'now' };
    expect(refused(TakeCall, call, 'source')).toHaveProperty('source');
    expect(send(TakeCall, { ...call, source: 'office' }).value?.source).toBe('office');
    expect(refused(NewPerson, { name: 'Rosa', email: A, role: 'owner' }, 'gaugeGrade')).toEqual({ gaugeGrade: ['Choose the grade on the dial.'] }); // prettier-ignore
    expect(Object.keys(refused(NewPerson, { name: 'Rosa', email: A, role: 'owner' }, 'skills'))).toEqual(['skills[0]']);
    const task = { unitId: ID, kindKey: 'k', weeks: '8', anchor: 'calendar' };
    expect(refused(NewTask, task, 'form')).toHaveProperty('form');
    for (const weekday of ['-1', '7', '1.5']) expect(send(NewTask, { ...task, weekday }).error).toHaveProperty('weekday');
    for (const [weekday, day] of [['0', 'MO'], ['6', 'SU']] as const) expect(send(NewTask, { ...task, weekday }).value?.rule).toContain(`BYDAY=${day}`); // prettier-ignore
    const place = { customerId: ID, name: 'K', timeZone: 'UTC', 'altitude.unit': 'm', 'hotDayAir.unit': 'C' };
    for (const day of ['0', '6']) expect(send(NewKitchen, { ...place, preferredWeekday: day }).value?.preferredWeekday).toBe(Number(day));
    for (const preferredWeekday of ['-1', '7', '1.5']) expect(send(NewKitchen, { ...place, preferredWeekday }).error).toHaveProperty('preferredWeekday'); // prettier-ignore
  });
});

describe('what no form sends', () => {
  const takes = (schema: z.ZodType, value: unknown) => schema.safeParse(value);
  it('is told as plainly', () => {
    const words = (schema: z.ZodType, value: unknown) => takes(schema, value).error?.issues.map((i) => i.message) ?? [];
    const away = { userId: ID, from: ON, to: ON, moves: [] };
    expect(takes(SendAway, away).data).toEqual({ ...away, reason: '' });
    expect(words(SendAway, { ...away, userId: '' })).toEqual(['Choose who is away.']);
    expect(words(SendAway, { ...away, to: '2026-11-01' })).toEqual(['The last day comes before the first.']);
    expect(takes(SendAway, { ...away, to: '2026-11-01' }).error?.issues[0]?.path).toEqual(['to']);
    expect(words(CheckFleet, { file: 'fleet.csv' })).toEqual(['Choose a file or paste its lines.']);
    expect(words(AcceptPlan, { runId: ID, visits: [] })).toEqual(['Choose at least one visit.']);
    expect(takes(AcceptPlan, { runId: ID, visits: [{ key: 'a', technicianId: ID, startMs: 5 }] }).data).toEqual({ runId: ID, visits: [{ key: 'a', technicianId: ID, startMs: 5, fixed: false }] }); // prettier-ignore
    for (const odd of [{}, { key: 'a', technicianId: 'x' }, { key: 'a', startMs: 8.64e15 + 2 }, { key: 'a', startMs: 0.5 }]) expect(takes(AcceptPlan, { runId: ID, visits: [odd] }).success).toBe(false); // prettier-ignore
    expect(words(AcceptPlaces, { taken: [] })).toEqual(['Tick at least one.']);
    expect(words(BookVisit, { ...SLOT, kitchenId: ID, taskIds: [] })).toEqual(['Choose at least one task.']);
    expect([{ userId: ID }, { kitchenId: ID }].map((one) => takes(FeedOf, one).data)).toEqual([{ userId: ID }, { kitchenId: ID }]);
    for (const odd of [{}, { userId: 'x' }, { kitchenId: '' }]) expect(takes(FeedOf, odd).success).toBe(false);
    const move = { visitId: ID, version: 1, technicianId: ID, startMs: 0, endMs: 1 };
    const taken = { kitchenId: ID, unitIds: [ID], taskIds: [ID], what: 'Hot', minutes: 45, technicianId: ID, startMs: 0, moves: [move] };
    expect(takes(SqueezeTake, taken).data).toEqual(taken);
    for (const key of Object.keys(taken)) expect(takes(SqueezeTake, { ...taken, [key]: undefined }).success, key).toBe(false);
    for (const key of Object.keys(move)) {
      expect(takes(SqueezeTake, { ...taken, moves: [{ ...move, [key]: undefined }] }).success, key).toBe(false);
      expect(takes(SendAway, { ...away, moves: [{ ...move, [key]: -0.5 }] }).success, key).toBe(false);
    }
    const choice = { runId: ID, of: 'kind', key: 'Reach in', value: 'reach_in' };
    expect(takes(SheetChoice, choice).data).toEqual(choice);
    for (const of of ['sheet', 'column', 'answer', 'placement', 'refrigerant'])
      expect(takes(SheetChoice, { ...choice, of }).success).toBe(true);
    for (const odd of [{ of: 'row' }, { value: 'n'.repeat(101) }, { key: 'n'.repeat(301) }, { runId: '' }]) expect(takes(SheetChoice, { ...choice, ...odd }).success).toBe(false); // prettier-ignore
    const fix = { id: ID, visitId: ID, lat: 1, lng: 2, accuracyM: 5, at: '2026-11-28T10:00:00Z' };
    expect(takes(Arrivals, { allow: true, fixes: [fix] }).data).toEqual({ allow: true, fixes: [fix] });
    for (const key of Object.keys(fix)) expect(takes(Arrivals, { fixes: [{ ...fix, [key]: undefined }] }).success, key).toBe(false);
  });
  it('reads a yes that a page writes into its address', () => {
    const book = { ...SLOT, kitchenId: ID, taskIds: [ID] };
    expect(send(BookVisit, { kitchenId: ID, technicianId: ID, date: ON, from: '09:30', minutes: '45', taskIds: ID, anyway: 'yes', fixed: 'true' }).value).toMatchObject({ ...book, anyway: true, fixed: true }); // prettier-ignore
    expect(send(MoveVisit, { visitId: ID, version: '3', technicianId: ID, date: ON, from: '09:30', minutes: '45', reason: 'Ill', back: 'true' }).value?.back).toBe(true); // prettier-ignore
  });
});
