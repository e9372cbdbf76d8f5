import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { AnswerQuoteOnPage, AnswerVisit, AskToBeRung, MakePage } from '@/lib/schemas/customers/customer-pages';
import { Archive, EditCustomer, NewCustomer, SetSending } from '@/lib/schemas/customers/customers';
import { AnswerChange, Arrivals, FindPlaces, KitchenChanged, NewBlackout, NewKitchen, SetPosition, AcceptPlaces } from '@/lib/schemas/customers/kitchens'; // prettier-ignore
import { CustomerReply } from '@/lib/schemas/customers/links';
import { SendQuarter } from '@/lib/schemas/customers/quarters';
import { SendReport } from '@/lib/schemas/customers/reports';
import { ChoiceFigures, DecideUnit, LookAgain } from '@/lib/schemas/equipment/choices';
import { NewUnit } from '@/lib/schemas/equipment/equipment';
import { CheckFleet, SheetChoice } from '@/lib/schemas/equipment/fleet-csv';
import {
  CylinderGone,
  NewCertificate,
  NewCylinder,
  NewCylinderEntry,
  NewLeakTest,
  TakeEntryBack,
} from '@/lib/schemas/equipment/refrigerant-book';
import { EditJob, JobStepTaken, PutOnVisit, TakeCall } from '@/lib/schemas/jobs/jobs';
import { AnswerQuote, ChooseTime, ChooseTimeOnPage, SaveQuote, SendQuote } from '@/lib/schemas/jobs/quotes';
import { SendAway } from '@/lib/schemas/people/absences';
import { AskForLink, ChangePassword, ChoosePassword, ConfirmSecondStep, NewPerson, NewTimeOff, ProveIt, SetPassword } from '@/lib/schemas/people/people'; // prettier-ignore
import { AddWarranty, MovePart, PartFile, SavePart } from '@/lib/schemas/shop/parts';
import { PolicyForm, policyFromForm } from '@/lib/schemas/shop/policy';
import { EditShop, ReportLook, SetCosts, SetUp } from '@/lib/schemas/shop/shop';
import { UploadAsked, UploadPiece } from '@/lib/schemas/tablet/files';
import { AcceptPlan, StartPlan } from '@/lib/schemas/visits/planning';
import { SqueezeAsk, SqueezeTake } from '@/lib/schemas/visits/squeeze';
import { AcceptChanges, EditRule, EditTaskKind, LockRule, NewTask, NewTaskKind, RemoveTask, ReviewChange, SettleJob } from '@/lib/schemas/visits/tasks'; // prettier-ignore
import { TravelFile } from '@/lib/schemas/visits/travel';
import { BookVisit, CancelVisit, ChangeVisit, GiveVisit, MoveVisit } from '@/lib/schemas/visits/visits';
import { DEFAULT_POLICY } from '@/lib/core/intervals';
import { LEARNING_TASKS } from '@/lib/core/tasks';
import { send, type Sent } from './support/send';

const ID = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';
const OTHER = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a11';
const n = (length: number) => 'n'.repeat(length);

type Field = [name: string, fits: (string | string[])[], refused: Record<string, string>];
type Form = [name: string, schema: z.ZodType, filled: Sent, fields: Field[]];

const NAME: Record<string, string> = { '': 'Give the customer a name.', [n(121)]: 'At most 120 characters.' };
const TASK = { form: 'weeks', weeks: '8', weekday: '', ruleText: '', anchor: 'last_completed', firstDueOn: '' };
const KIND = { label: 'Door gaskets', minutes: '10', lowSide: '', defaultWeeks: '13', minWeeks: '4', maxWeeks: '26' };
const WEEKS = { '0': 'At least 1 week.', '105': 'At most 104 weeks.', '1.5': 'Whole weeks.', '': 'Write the weeks as a whole number.' };
const SLOT = { technicianId: ID, date: '2026-12-01', from: '09:30', minutes: '45' };
const TIMES: Record<string, string> = { '9:30': 'Give a time as hours and minutes, for instance 09:30.', '24:00': 'Give a time as hours and minutes, for instance 09:30.', '09:60': 'Give a time as hours and minutes, for instance 09:30.', '109:30': 'Give a time as hours and minutes, for instance 09:30.' }; // prettier-ignore
const MINUTES = {
  '9': 'At least 10 minutes.',
  '721': 'At most 12 hours.',
  '10.5': 'Whole minutes.',
  soon: 'Give the minutes as a number.',
};
const DATE = { '12/01/2026': 'Give a date as year-month-day.', '2026-02-30': 'Give a date as year-month-day.' };
const NOT_MAIL = { nobody: 'That is not an e-mail address.' };
const MAIL = { nobody: 'Give an e-mail address.', '': 'Give an e-mail address.' };
const CYLINDER = { label: 'C-14', refrigerant: 'R404A', contents: 'new', 'tare.value': '12', 'tare.unit': 'lb', 'gross.value': '30', 'gross.unit': 'lb', 'most.value': '24', 'most.unit': 'lb', withUserId: '', note: '' }; // prettier-ignore
const ENTRY = { cylinderId: ID, way: 'charged', 'kg.value': '2', 'kg.unit': 'lb', 'gross.value': '', 'gross.unit': 'lb', unitTag: 'A-1', recoveredFor: '', certificateId: '', overruledBy: '', overruledWhy: '', on: '2026-11-02', note: '' }; // prettier-ignore
const COSTS = { seen: '1', distance: 'km', labourPerHour: '48', vehicle: '0.4', cleaningCost: '85', inspectionCost: '20', failureCost: '1200', energyPricePerKwh: '0.14' }; // prettier-ignore
const atMost = (most: string, ask: string) => ({ ' ': 'Write an amount, like 1,200 or 0.70.', '-1': 'Not below nothing.', [String(Number(most.replaceAll(',', '')) + 1)]: `At most ${most}.`, '': ask, x: 'Write an amount, like 1,200 or 0.70.' }); // prettier-ignore
const FIGURES = { coilPrice: '900', coilYears: '10', unitPrice: '', unitYears: '12', leftYears: '3', useKwh: '', newKwh: '', callOut: '120', refrigerantPerKg: '30', refrigerantPerLb: '', interest: '6' }; // prettier-ignore
const YEARS = { '0.4': 'At least half a year.', '61': 'At most 60.', '': 'Write the years.' };
const PRICED = (most: string) => ({ '-1': 'Not below nothing.', [String(Number(most.replaceAll(',', '')) + 1)]: `At most ${most}.` });
const SHOP = { name: 'Larkspur', timeZone: 'UTC', currency: 'USD', phone: '', email: '', position: '', overdueLimitDays: '14', overShiftMinutes: '30', remindDayBefore: '', circuity: '1.3', region: 'us', dates: 'day_first', speed: '22', speedOnFile: '', distance: 'mi', seen: '1' }; // prettier-ignore
const PERSON = { name: 'Rosa Lindqvist', email: 'R@Shop.example', role: 'technician', skills: ['roof'], phone: '', gaugeGrade: '1A', 'gaugeSpan.value': '500', 'gaugeSpan.unit': 'psig', home: '', 'shifts.mon': '7-3:30', password: '' }; // prettier-ignore
const SETUP = { code: '2718-2818-2845', shop: 'Larkspur', timeZone: 'America/Denver', currency: 'USD', name: 'Maren', email: 'm@shop.example', password: 'four plain little words' }; // prettier-ignore
const TEN = '1 2 3 4 5 6 7 8 9 10';
const UNIT = { kitchenId: ID, name: 'Fry line', tag: '', kind: 'drawer_base', placement: 'fryer', refrigerant: 'R290', 'chargeKg.unit': 'g', 'chargeKg.value': '', application: 'medium', expansion: 'capillary', circuitAccess: 'sealed', condenserKind: 'fin_and_tube', 'cutoutPaGauge.unit': 'psig', 'cutoutPaGauge.value': '', 'boxSetK.unit': 'C', 'boxSetK.value': '', headControl: '', 'nominalCoolingW.unit': 'btuh', 'nominalCoolingW.value': '', 'runHoursPerDay.unit': 'h', 'runHoursPerDay.value': '', 'airOverRoomK.unit': 'K', 'airOverRoomK.value': '', airProfile: '', thermometerClass: '', make: '', model: '', serial: '', notes: '', lastCleanedOn: '', firstDueOn: '', 'compressorMap.massFlow': TEN, 'compressorMap.power': TEN, 'compressorMap.ratedSuperheatK': '' }; // prettier-ignore
const ASK = { kitchenId: ID, unitIds: [], what: 'Box is warm', minutes: '60', date: '2026-12-01', from: '10:05', anyHour: '' };
const QUOTE = { jobId: ID, 'lines[0].kind': 'part', 'lines[0].what': 'Fan motor', 'lines[0].partNumber': '', 'lines[0].quantity': '1', 'lines[0].unit': '', 'lines[0].price': '90', 'lines[0].taxed': '', taxPercent: '', validUntil: '2026-12-31', reason: 'The fan is dead. It must turn.' }; // prettier-ignore

/** What fits stands at the very edge, what is refused just beyond it. */
const FORMS: Form[] = [
  ['a customer', NewCustomer, { name: 'Blue Heron', contactName: '', email: '', phone: '', notes: '', language: '' }, [
    ['name', [n(120)], NAME],
    ['contactName', [n(120)], { [n(121)]: 'At most 120 characters.' }],
    ['email', ['a@b.example'], NOT_MAIL],
    ['phone', [n(60)], { [n(61)]: 'At most 60 characters.' }],
    ['notes', [n(4000)], { [n(4001)]: 'At most 4000 characters.' }],
  ]],
  ['taking a customer off file', Archive, { id: ID, version: '2', reason: 'Sold' }, [['reason', ['Out', n(500)], { No: 'Say why it is taken off file.', '': 'Say why it is taken off file.', [n(501)]: 'At most 500 characters.' }]]],
  ['a page for a customer', MakePage, { customerId: ID, kitchenId: '', holder: 'The manager', toEmail: '', language: 'en', answersQuotes: '' }, [
    ['holder', ['Jo', n(120)], { J: 'Say whom it is for.', '': 'Say whom it is for.', [n(121)]: 'At most 120 characters.' }],
    ['kitchenId', [ID], { all: 'Choose a kitchen.' }],
    ['toEmail', ['a@b.example'], NOT_MAIL],
    ['language', ['es'], { fr: 'Choose a language.' }],
  ]],
  ['a call from a page', AskToBeRung, { token: 't', once: ID, kitchenId: ID, unitId: '', what: 'Ice on the fan', urgency: 'today', name: 'Jo', phone: '555 01' }, [
    ['kitchenId', [OTHER], { here: 'kitchen' }],
    ['what', ['Ice', n(500)], { no: 'what', '': 'what', [n(501)]: 'long' }],
    ['urgency', ['now'], { soon: 'urgency' }],
    ['name', ['Al', n(120)], { A: 'name', '': 'name', [n(121)]: 'long' }],
    ['phone', ['12345', n(40)], { '1234': 'phone', '': 'phone', [n(41)]: 'long' }],
  ]],
  ['an answer to a quote, on a page', AnswerQuoteOnPage, { token: 't', quoteId: ID, answer: 'accepted', name: 'Jo', note: '' }, [
    ['name', ['Jo', n(120)], { J: 'name', [n(121)]: 'long' }],
    ['note', [n(500)], { [n(501)]: 'long' }],
  ]],
  ['an answer to a quote', AnswerQuote, { token: 't', answer: 'declined', name: 'Jo', note: '' }, [
    ['answer', ['accepted'], { perhaps: 'two', '': 'two' }],
    ['name', ['Jo', n(120)], { J: 'name', '': 'name', [n(121)]: 'long' }],
    ['note', [n(500)], { [n(501)]: 'long' }],
  ]],
  ['a kitchen', NewKitchen, { customerId: ID, name: 'Mill Street', address: '', timeZone: 'UTC', 'altitude.value': '', 'altitude.unit': 'm', position: '', accessNotes: '', contactName: '', contactPhone: '', contactEmail: '', energyPricePerKwh: '', 'hotDayAir.value': '', 'hotDayAir.unit': 'C', preferredWeekday: '' }, [
    ['address', [n(400)], { [n(401)]: 'At most 400 characters.' }],
    ['altitude.value', ['-430', '5,000'], { '-431': 'Between -430 and 5000 m is possible.', '5001': 'Between -430 and 5000 m is possible.' }],
    ['hotDayAir.value', ['0', '60'], { '-0.1': 'Between 0 and 60 °C is possible.', '60.1': 'Between 0 and 60 °C is possible.' }],
    ['energyPricePerKwh', ['0', '10', '0,17'], { '10.1': 'Between 0 and 10 a kilowatt-hour.', '-0.1': 'Between 0 and 10 a kilowatt-hour.', dear: 'Write a number.' }],
    ['contactEmail', ['a@b.example'], NOT_MAIL],
    ['timeZone', ['Dublin'], { '': 'Choose a time zone.' }],
    ['position', ['41.88, -87.63'], { [n(301)]: 'At most 300 characters.' }],
  ]],
  ['days on which a kitchen is closed', NewBlackout, { kitchenId: ID, from: '2026-12-24', to: '2026-12-26', reason: '' }, [
    ['to', ['2026-12-24'], { '2026-12-23': 'The last day comes before the first.', ...DATE }],
    ['reason', [n(200)], { [n(201)]: 'At most 200 characters.' }],
  ]],
  ['what changed in a kitchen', KitchenChanged, { kitchenId: ID, since: '2026-10-01', breathes: 'more', what: 'A fryer' }, [['what', ['Wok', n(200)], { no: 'Say what changed.', '': 'Say what changed.', [n(201)]: 'At most 200 characters.' }], ['since', ['2026-10-02'], { ...DATE, '': 'Give a date as year-month-day.' }]]],
  ['what changed, when asked', AnswerChange, { id: ID, answer: 'menu' }, [['answer', ['nothing'], { who: 'Choose what changed, or that nothing did.', '': 'Choose what changed, or that nothing did.' }]]],
  ['looking an address up', FindPlaces, { address: '12 Kiln Yard' }, [['address', ['Oslo', n(400)], { Ely: 'Write the address first.', '': 'Write the address first.', [n(401)]: 'At most 400 characters.' }]]],
  ['a position', SetPosition, { kitchenId: ID, text: '41.88, -87.63' }, [['text', [n(300)], { '': 'Paste a position first.', [n(301)]: 'At most 300 characters.' }]]],
  ['a quarter', SendQuarter, { customerId: ID, quarter: '2026-11-28', toEmail: 'a@b.example', language: 'en' }, [['toEmail', ['c@d.example'], MAIL], ['language', ['es'], { '': 'Choose a language.' }], ['quarter', ['2026-01-01'], DATE]]],
  ['a report', SendReport, { visitId: ID, toEmail: 'a@b.example', language: 'en' }, [['toEmail', ['c@d.example'], MAIL], ['language', ['es'], { '': 'Choose a language.' }]]],
  ['a cylinder', NewCylinder, CYLINDER, [
    ['label', ['1', n(60)], { '': 'Give what is written on it.', [n(61)]: 'At most 60 characters.' }],
    ['refrigerant', ['R290'], { unknown: 'Choose the gas.', R999: 'Choose the gas.', '': 'Choose the gas.' }],
    ['contents', ['recovered'], { old: 'New or recovered?' }],
    ['note', [n(500)], { [n(501)]: 'At most 500 characters.' }],
  ]],
  ['gas put in or taken out', NewCylinderEntry, ENTRY, [
    ['way', ['bought'], { lost: 'Say what happened.' }],
    ['unitTag', [n(60)], { [n(61)]: 'At most 60 characters.' }],
    ['overruledBy', [n(200)], { [n(201)]: 'At most 200 characters.' }],
    ['overruledWhy', [n(500)], { [n(501)]: 'At most 500 characters.' }],
    ['recoveredFor', ['reuse'], {}],
    ['on', ['2026-11-03'], DATE],
  ]],
  ['taking a line back', TakeEntryBack, { entryId: ID, why: 'Twice' }, [['why', ['Old'], { no: 'Say what was wrong with it.' }]]],
  ['a leak test', NewLeakTest, { unitId: ID, on: '2026-11-02', kind: 'initial', passed: 'yes', how: '' }, [['how', [n(300)], { [n(301)]: 'At most 300 characters.' }]]],
  ['a certificate', NewCertificate, { userId: ID, kind: 'us_608_universal', number: '12', expiresOn: '' }, [
    ['kind', [], { other_one: 'Choose what it is.' }],
    ['number', ['7', n(80)], { '': 'Give its number.', [n(81)]: 'At most 80 characters.' }],
    ['expiresOn', ['2027-01-31'], { ...DATE, ' ': 'Give a date as year-month-day.' }],
  ]],
  ['a call', TakeCall, { kitchenId: ID, unitIds: [ID], what: 'Warm box', urgency: 'now', source: '', callerName: '', callerPhone: '' }, [
    ['kitchenId', [OTHER], { none: 'Choose a kitchen.' }],
    ['what', ['Hot', n(500)], { no: 'Say what is wrong.', '': 'Say what is wrong.', [n(501)]: 'At most 500 letters.' }],
    ['urgency', ['next_visit'], { soon: 'Say how soon.' }],
    ['callerName', [n(120)], { [n(121)]: 'At most 120 characters.' }],
    ['callerPhone', [n(40)], { [n(41)]: 'At most 40 characters.' }],
  ]],
  ['a job', EditJob, { jobId: ID, version: '1', what: 'Warm box', urgency: 'now', unitIds: [] }, [['what', ['Hot'], { no: 'Say what is wrong.' }]]],
  ['a step of a job', JobStepTaken, { jobId: ID, from: 'asked', step: 'looked_at', reason: '' }, [['reason', [n(500)], { [n(501)]: 'At most 500 characters.' }]]],
  ['a job on a visit', PutOnVisit, { jobId: ID, visitId: ID }, [['visitId', [OTHER], { one: 'Choose a visit.', '': 'Choose a visit.' }]]],
  ['a quote', SaveQuote, QUOTE, [
    ['lines[0].price', ['0', '1,000,000', '$12.50'], { '-1': 'A price is zero or more.', '1000001': 'At most 1,000,000.', '': 'Write a price.', much: 'Write a price.' }],
    ['lines[0].quantity', ['0.5', '10000'], { '0': 'More than zero.', '10001': 'At most 10,000.', '': 'How many?' }],
    ['lines[0].what', [n(200)], { '': 'Say what it is.', [n(201)]: 'At most 200 characters.' }],
    ['lines[0].unit', [n(12)], { [n(13)]: 'At most 12 characters.' }],
    ['taxPercent', ['0', '100', '8.25%'], { '-0.1': 'From 0 to 100.', '100.1': 'From 0 to 100.', lots: 'Write a percentage.' }],
    ['reason', [n(10), n(600)], { 'Too short': 'Say why, in two sentences.', '': 'Say why, in two sentences.', [n(601)]: 'At most 600 characters; the customer reads two sentences.' }],
    ['validUntil', ['2027-01-01'], DATE],
  ]],
  ['sending a quote', SendQuote, { quoteId: ID, to: '' }, [['to', ['a@b.example'], NOT_MAIL]]],
  ['a person', NewPerson, PERSON, [
    ['name', ['Al', n(120)], { A: 'Give the whole name, two letters or more.', '': 'Give the name.', [n(121)]: 'At most 120 characters.' }],
    ['email', [`${n(60)}@shop.example`, `a@${`${n(60)}.`.repeat(3)}${n(10)}.example`.slice(0, 200)], { [`a@${`${n(60)}.`.repeat(4)}example`]: 'At most 200 characters.', nobody: 'Give an e-mail address.', '': 'Give an e-mail address.' }],
    ['role', ['owner'], { boss: 'Choose a role.' }],
    ['gaugeGrade', ['4A', ''], { '9A': 'Choose the grade on the dial.' }],
    ['gaugeSpan.value', ['100', '5800'], { '99': 'Between 100 and 5800 psig is possible.', '5802': 'Between 100 and 5800 psig is possible.' }],
    ['phone', [n(60)], { [n(61)]: 'At most 60 characters.' }],
    ['password', ['river lamp seven tall'], { short: 'Too short: at least 12 characters.' }],
  ]],
  ['a password', SetPassword, { id: ID, password: 'river lamp seven tall' }, [['password', ['twelve lamps'], { 'eleven lamp': 'Too short: at least 12 characters.', '': 'Give a password.' }]]],
  ['days off', NewTimeOff, { userId: ID, from: '2026-12-24', to: '2026-12-26', reason: '' }, [['to', ['2026-12-24'], { '2026-12-23': 'The last day comes before the first.' }]]],
  ['the second step', ConfirmSecondStep, { secret: 'A2'.repeat(16), code: '123456' }, [
    ['code', ['123 456'], { '12345': 'Six digits, as the authenticator shows them.', '1234567': 'Six digits, as the authenticator shows them.', '12 3456': 'Six digits, as the authenticator shows them.', '': 'Give the six digits.' }],
    ['secret', [], { ['A'.repeat(31)]: 'Open this page again.', ['A'.repeat(33)]: 'Open this page again.', ['1'.repeat(32)]: 'Open this page again.' }],
  ]],
  ['a part', SavePart, { number: 'F-1', name: 'Fan', price: '12.50', inVan: '', inShop: '', warrantyMonths: '' }, [
    ['number', [n(60)], { '': 'Give it a number.', [n(61)]: 'At most 60 characters.' }],
    ['name', [n(200)], { '': 'Give it a name.', [n(201)]: 'At most 200 characters.' }],
    ['price', ['0', '1,000,000'], { '-1': 'A price is zero or more.', '1000001': 'At most 1,000,000.', '': 'Write a price.' }],
    ['inVan', ['0', '100,000'], { '-1': 'Not below zero.', '100001': 'At most 100,000.', '1.5': 'A whole number.' }],
    ['warrantyMonths', ['0', '600'], { '1.5': 'Whole months.', ever: 'Whole months.', '-1': 'Not below zero.', '601': 'At most 600 months.' }],
  ]],
  ['a part that moves', MovePart, { number: 'F-1', pieces: '2', from: 'shop', to: 'van' }, [
    ['number', [n(60)], { '': 'Which part?', [n(61)]: 'At most 60 characters.' }],
    ['pieces', ['1', '100,000'], { '0': 'At least one.', '100001': 'At most 100,000.', '1.5': 'Whole pieces.', '': 'How many?' }],
    ['to', [ID, ''], { shop: 'Choose two places.' }],
  ]],
  ['a file of parts', PartFile, { csv: 'a,b\n1,2' }, [['csv', ['a'.repeat(2_000_000)], { '': 'Choose a file or paste its lines.', ' \n ': 'Choose a file or paste its lines.', ['a'.repeat(2_000_001)]: 'Larger than 2 MB. Split it.' }]]],
  ['a warranty', AddWarranty, { jobId: ID, unitId: ID, what: 'Fan', until: '2028-01-01', note: '' }, [
    ['what', ['ok', n(200)], { f: 'Say what is covered.', '': 'Say what is covered.', [n(201)]: 'At most 200 characters.' }],
    ['unitId', [OTHER], { it: 'Choose a unit.' }],
    ['until', ['2029-02-28'], { soon: 'Give a date as year-month-day.' }],
  ]],
  ['what things cost', SetCosts, COSTS, [
    ['labourPerHour', ['0', '2,000'], atMost('2,000', 'Give what an hour of a technician costs you.')],
    ['vehicle', ['0', '100'], atMost('100', 'Give what a mile or kilometre of driving costs.')],
    ['cleaningCost', ['0', '10,000'], atMost('10,000', 'Give what one coil cleaning costs you.')],
    ['inspectionCost', ['0', '10,000'], atMost('10,000', 'Give what one look at a drain or evaporator costs you.')],
    ['failureCost', ['0', '100,000'], atMost('100,000', 'Give what a breakdown costs.')],
    ['energyPricePerKwh', ['0', '10'], atMost('10', 'Give the price of a kilowatt-hour.')],
  ]],
  ['the shop', EditShop, SHOP, [
    ['overdueLimitDays', ['0', '365'], { '-1': 'At least 0.', '366': 'At most 365.', '1.5': 'Whole days.', '': 'Write the days.' }],
    ['overShiftMinutes', ['0', '180'], { '-1': 'At least 0.', '181': 'At most 180.', '1.5': 'Whole minutes.', '': 'Write the minutes.' }],
    ['circuity', ['1', '3'], { '0.9': 'At least 1.', '3.1': 'At most 3.', '': 'Write a number.' }],
    ['speed', ['2', '80'], { '1': 'Between 2 and 80 mph.', '81': 'Between 2 and 80 mph.', '': 'Write a number.' }],
    ['region', ['gb'], { moon: 'Choose where the shop works.' }],
    ['dates', ['month_first'], { mine: 'Choose how dates are written.' }],
    ['currency', ['eur'], { US: 'Not a currency. Write it like USD.', XXQ: 'Not a currency. Write it like USD.', '': 'Give the currency as three letters.' }],
    ['phone', [n(60)], { [n(61)]: 'At most 60 characters.' }],
  ]],
  ['setting a shop up', SetUp, SETUP, [
    ['code', [n(40)], { '': 'Type the code that was printed when Rimebook started.', [n(41)]: 'The code is shorter.' }],
    ['name', ['Al', n(120)], { A: 'Give your name.', '': 'Give your name.', [n(121)]: 'At most 120 characters.' }],
    ['password', ['river lamp seven tall'], { short: 'Too short: at least 12 characters.' }],
  ]],
  ['an emergency', SqueezeAsk, ASK, [
    ['kitchenId', [OTHER], { none: 'Choose a kitchen.' }],
    ['what', ['Hot', n(500)], { no: 'Say what is wrong.', '': 'Say what is wrong.', [n(501)]: 'At most 500 letters; the rest goes into the note on the visit.' }],
    ['minutes', ['10', '720'], MINUTES],
    ['from', ['00:00', '23:59'], TIMES],
    ['date', ['2026-12-02'], DATE],
  ]],
  ['a task', NewTask, { unitId: ID, kindKey: 'coil_cleaning', ...TASK }, [
    ['kindKey', ['drain_inspection'], { '': 'Choose what is to be done.' }],
    ['weeks', ['1', '104'], { ...WEEKS, '': 'Write how many weeks lie between two times.' }],
    ['anchor', ['calendar'], { never: 'Choose one.' }],
  ]],
  ['a rule', EditRule, { taskId: ID, version: '1', ...TASK, minWeeks: '4', maxWeeks: '26', reason: 'Contract' }, [
    ['maxWeeks', ['4'], { '105': 'At most 104 weeks.', '3': 'The longest interval is shorter than the shortest.' }],
    ['reason', ['Why'], { no: 'Say why the rule changes; it stays with the history.' }],
  ]],
  ['a kind of task', NewTaskKind, KIND, [
    ['label', ['Fan', n(60)], { Fa: 'At least 3 characters.', '': 'Give it a name.', [n(61)]: 'At most 60 characters.' }],
    ['minutes', ['1', '600'], { '0': 'At least a minute.', '601': 'At most ten hours.', '1.5': 'Whole minutes.', '': 'Write the minutes.' }],
    ['defaultWeeks', ['4', '26'], { '3': 'Lies outside the shortest and longest interval.', '27': 'Lies outside the shortest and longest interval.' }],
  ]],
  ['a kind of task on file', EditTaskKind, { key: 'gaskets', active: 'on', ...KIND }, [
    ['maxWeeks', ['13'], { '12': 'Lies outside the shortest and longest interval.' }],
    ['minWeeks', ['13'], { '14': 'Lies outside the shortest and longest interval.' }],
  ]],
  ['an overruled change', ReviewChange, { changeId: ID, verdict: 'overruled', reason: 'Knows better' }, [['reason', ['Why'], { no: 'Say why it is overruled; it stays with the history.' }]]],
  ['changes kept together', AcceptChanges, { changeIds: `${ID} ${OTHER}` }, [['changeIds', [ID], { ' ': 'Nothing was chosen.' }]]],
  ['a visit', BookVisit, { kitchenId: ID, ...SLOT, taskIds: [ID], note: '', fixed: '', anyway: '' }, [
    ['technicianId', [OTHER], { nobody: 'Choose a technician.', '': 'Choose a technician.' }],
    ['minutes', ['10', '720'], MINUTES],
    ['from', ['23:59'], TIMES],
    ['note', [n(2000)], { [n(2001)]: 'At most 2000 letters.' }],
    ['taskIds', [], { '': 'Choose at least one task.' }],
  ]],
  ['a visit that moves', MoveVisit, { visitId: ID, version: '1', ...SLOT, reason: 'Ill', anyway: '' }, [['reason', ['Ill', n(500)], { no: 'Say why it moves.', '': 'Say why it moves.', [n(501)]: 'At most 500 letters.' }]]],
  ['a visit that changes', ChangeVisit, { visitId: ID, version: '1', taskIds: [], minutes: '45', note: '', fixed: '' }, [['minutes', ['10'], MINUTES], ['note', [n(2000)], { [n(2001)]: 'At most 2000 letters.' }]]],
  ['what a comparison asks', ChoiceFigures, FIGURES, [
    ['coilPrice', ['0', '1,000,000'], { ...PRICED('1,000,000'), dear: 'Write a number.', '': 'Give the price of a coil or of a unit.' }],
    ['coilYears', ['0.5', '60'], YEARS],
    ['unitYears', ['0.5', '60'], YEARS],
    ['leftYears', ['0.5', '60'], YEARS],
    ['callOut', ['0', '100,000'], { ...PRICED('100,000'), '': 'Write a number.' }],
    ['interest', ['0', '50', '6 %'], { '-1': 'Not below nothing.', '51': 'At most 50.', '': 'Write a percentage.' }],
    ['useKwh', ['0', '500,000', ''], PRICED('500,000')],
    ['refrigerantPerKg', ['0', '10,000'], { ...PRICED('10,000'), '': 'Write a number.' }],
  ]],
  ['a decision about a unit', DecideUnit, { ...FIGURES, unitId: ID, way: 'go_on', reason: 'Next year' }, [['way', [], { burn: 'Choose a way.' }], ['reason', ['Why'], { no: 'Say why.' }]]],
  ['a customer on file', EditCustomer, { id: ID, version: '2', name: 'Blue Heron', contactName: '', email: '', phone: '', notes: '', language: 'es' }, [['name', [n(120)], NAME], ['version', ['0'], {}]]],
  ['another look at a decision', LookAgain, { id: ID, note: 'Still right' }, [['note', ['Yes', n(500)], { no: 'Say what you think of it today.', '': 'Say what you think of it today.', [n(501)]: 'At most 500 characters.' }]]],
  ['a cylinder that went', CylinderGone, { id: ID, version: '2', why: 'Sent back' }, [['why', ['Out', n(500)], { no: 'Say where it went.', '': 'Say where it went.', [n(501)]: 'At most 500 characters.' }]]],
  ['a rule that is locked', LockRule, { taskId: ID, version: '1', lock: 'lock', reason: 'Contract' }, [['reason', ['Why', n(500)], { no: 'Say why; it stays with the history.', '': 'Say why; it stays with the history.', [n(501)]: 'At most 500 characters.' }]]],
  ['a task taken off', RemoveTask, { taskId: ID, version: '1', reason: 'Gone' }, [['reason', ['Why', n(500)], { no: 'Say why it is taken off.', '': 'Say why it is taken off.', [n(501)]: 'At most 500 characters.' }]]],
  ['a job settled', SettleJob, { jobId: ID, as: 'done', note: '' }, [['note', [n(500)], { [n(501)]: 'At most 500 characters.' }]]],
  ['a visit cancelled', CancelVisit, { visitId: ID, version: '1', reason: 'Shut' }, [['reason', ['Ill', n(500)], { no: 'Say why it is cancelled.', '': 'Say why it is cancelled.', [n(501)]: 'At most 500 letters.' }]]],
  ['a visit given away', GiveVisit, { visitId: ID, version: '1', technicianId: ID, reason: 'Ill' }, [['technicianId', [OTHER], { nobody: 'Choose a technician.', '': 'Choose a technician.' }], ['reason', ['Ill', n(500)], { no: 'Say why someone else has it.', '': 'Say why someone else has it.', [n(501)]: 'At most 500 letters.' }]]],
  ['a file of driving minutes', TravelFile, { csv: 'a,b\n1,2' }, [['csv', ['a'.repeat(5_000_000)], { '': 'Choose a file or paste its lines.', ' \n ': 'Choose a file or paste its lines.', ['a'.repeat(5_000_001)]: 'Larger than 5 MB. Split it.' }]]],
  ['a plan asked for', StartPlan, { day: '2026-12-01' }, [['day', ['2028-02-29'], { ...DATE, '': 'Give a date as year-month-day.', '2027-02-29': 'Give a date as year-month-day.' }]]],
  ['one’s own password', ChangePassword, { current: 'as it was', password: 'as it will be' }, [['current', [' '], { '': 'Give the password you have now.' }], ['password', [' '], { '': 'Give a password.' }]]],
  ['the password once more', ProveIt, { password: 'x' }, [['password', ['y'], { '': 'Give your password.' }]]],
  ['a link asked for', AskForLink, { email: 'a@b.example' }, [['email', ['A@B.example'], MAIL]]],
  ['the look of reports', ReportLook, { seen: '1', reportWords: '' }, [['reportWords', [n(600)], { [n(601)]: 'At most 600 characters.' }]]],
  ['a unit', NewUnit, UNIT, [
    ['name', [n(120)], { '': 'Give the unit a name.', [n(121)]: 'At most 120 characters.' }],
    ['tag', ['A1', 'a'.repeat(40), ''], { A: '2 to 40 letters, digits, dots, dashes and underscores.', ['a'.repeat(41)]: '2 to 40 letters, digits, dots, dashes and underscores.', '-A1': '2 to 40 letters, digits, dots, dashes and underscores.' }],
    ['kind', ['ice_machine'], { fridge: 'Choose: kind.' }],
    ['placement', ['wok'], { moon: 'Choose: placement.' }],
    ['refrigerant', ['unknown'], { R999: 'Choose one from the list.', '': 'Choose the refrigerant on the nameplate.' }],
    ['chargeKg.value', ['5', '500000'], { '4.9': 'Between 5 and 500000 g is possible.', '500100': 'Between 5 and 500000 g is possible.', some: 'Write a number.' }],
    ['boxSetK.value', ['-60', '25'], { '-60.1': 'Between -60 and 25 °C is possible.', '25.1': 'Between -60 and 25 °C is possible.' }],
    ['runHoursPerDay.value', ['0.5', '24'], { '0.4': 'Between 0.5 and 24 h is possible.', '24.1': 'Between 0.5 and 24 h is possible.' }],
    ['cutoutPaGauge.value', ['30', '2170'], { '29.9': 'Between 30 and 2170 psig is possible.', '2176': 'Between 30 and 2170 psig is possible.' }],
    ['airOverRoomK.value', ['-15', '40'], { '-15.1': 'Between -15 and 40 K is possible.', '40.1': 'Between -15 and 40 K is possible.' }],
    ['airProfile', ['steady', ''], { windy: 'Choose: air at the coil over the year.' }],
    ['thermometerClass', ['tc_2', ''], { best: 'Choose: thermometers it is read with.' }],
    ['make', [n(120)], { [n(121)]: 'At most 120 characters.' }],
    ['notes', [n(4000)], { [n(4001)]: 'At most 4000 characters.' }],
    ['firstDueOn', ['2026-05-02'], DATE],
    ['compressorMap.ratedSuperheatK', ['0', '60'], { '-0.1': 'At least 0.', '60.1': 'At most 60.', much: 'Write a number.' }],
    ['compressorMap.power', [TEN, TEN.replaceAll(' ', ';'), TEN.replaceAll(' ', ',\n')], { '1 2 x 4 5 6 7 8 9 10': '“x” is not a number.', [`${TEN} 11`]: 'Ten numbers are wanted; here are 11.', '': 'A map has both: mass flow and power.' }],
    ['compressorMap.massFlow', [TEN], { '1 2 3 4 5 6 7 8 9 Infinity': '“Infinity” is not a number.', '': 'A map has both: mass flow and power.' }],
  ]],
]; // prettier-ignore

/** Where a bound joins two fields its message may stand beside either. */
const all = (error: Record<string, string[] | null>) => Object.values(error).flatMap((messages) => messages ?? []);

/** What no person types: an id, what the page was drawn from, a unit, a tick, or a word chosen from a list. */
const HIDDEN =
  /^(id|\w+Ids?|version|token|once|seen|secret|key|intent|speedOnFile|lines.*(kind|taxed)|\w+\.unit|form|answer|answersQuotes|remindDayBefore|taxed|lowSide|active|fixed|anyway|anyHour|degrees|verdict|lock|as|passed|kind|source|from|step|urgency|distance|breathes|language|weekday|preferredWeekday|skills|withUserId|headControl|recoveredFor|to)$/;
/** As the library that checks would say it, in nobody's language. */
const NOBODYS = /^(Invalid|Too (big|small)|Expected|Unrecognized)|expected/;
const NONSENSE = ['', ' ', 'x', n(20_000), '-1e99', '1e99', '0.0001', '31/31/2026'];

describe.each(FORMS)('the form of %s', (_, schema, filled, fields) => {
  it('goes in as it is filled here', () => expect(send(schema, filled).error).toEqual({}));
  it('tells whoever typed nonsense so in words of its own', () => {
    for (const field of Object.keys(filled).filter((one) => !HIDDEN.test(one)))
      for (const nonsense of NONSENSE)
        for (const words of all(send(schema, { ...filled, [field]: nonsense }).error))
          expect(words, `${field} ${nonsense.slice(0, 20)}`).not.toMatch(NOBODYS);
  });
  for (const [field, fits, refused] of fields) {
    for (const value of fits) it(`takes ${field} “${String(value).slice(0, 30)}”, ${value.length} long`, () => expect(send(schema, { ...filled, [field]: value }).error).toEqual({})); // prettier-ignore
    for (const [value, message] of Object.entries(refused))
      it(`refuses ${field} “${value.slice(0, 30)}”, ${value.length} long: ${message}`, () => {
        const { error } = send(schema, { ...filled, [field]: value });
        expect(all(error)).toContain(message);
        // Nothing else is found wrong with what is otherwise as it was.
        expect(new Set(all(error)).size).toBe(1);
      });
  }
});

describe('what hangs together in a form', () => {
  const cylinder = (over: Sent) => send(NewCylinder, { ...CYLINDER, ...over }).error;
  it('is weighed as a cylinder can be', () => {
    expect(cylinder({ 'gross.value': '12' })).toEqual({});
    expect(cylinder({ 'gross.value': '11.9' })).toEqual({ 'gross.value': ['With gas in it, it weighs no less than empty.'] });
    // Two in the hundred over, as scales go.
    expect(cylinder({ 'gross.value': '36.4' })).toEqual({});
    expect(cylinder({ 'gross.value': '36.6' })).toEqual({ 'gross.value': ['That is more gas than it may hold.'] });
    expect(cylinder({ 'tare.value': '0', 'gross.value': '0' })).toEqual({ 'tare.value': ['An empty cylinder weighs something.'] });
    expect(cylinder({ 'most.value': '0', 'gross.value': '12' })).toEqual({ 'most.value': ['It may hold something.'] });
    expect(cylinder({ 'tare.value': '', 'gross.value': '', 'most.value': '' })).toEqual({ 'tare.value': ['Give the weight of the empty cylinder.'], 'gross.value': ['Weigh it as it is.'], 'most.value': ['Give the most gas it may hold.'] }); // prettier-ignore
    expect(send(NewCylinder, CYLINDER).value).toMatchObject({ withUserId: null });
    expect(send(NewCylinder, { ...CYLINDER, withUserId: ID }).value).toMatchObject({ withUserId: ID });
  });
  it('moves gas with a sign only where it may go either way', () => {
    const entry = (over: Sent) => send(NewCylinderEntry, { ...ENTRY, ...over }).error;
    expect(entry({ way: 'moved', 'kg.value': '-2' })).toEqual({});
    expect(entry({ 'kg.value': '-2' })).toEqual({ 'kg.value': ['Without a sign: what happened says which way.'] });
    for (const value of ['', '0']) expect(entry({ 'kg.value': value })).toEqual({ 'kg.value': ['Give the weight.'] });
    // Nothing weighed is no weight below nothing, and is asked for once.
    expect(entry({ way: 'moved', 'kg.value': '' })).toEqual({ 'kg.value': ['Give the weight.'] });
    expect(entry({ way: 'scale_check', 'kg.value': '-2', 'gross.value': '20' })).toEqual({ 'kg.value': ['Without a sign: what happened says which way.'] }); // prettier-ignore
    expect(entry({ way: 'scale_check', 'kg.value': '', 'gross.value': '20' })).toEqual({});
    expect(entry({ way: 'scale_check', 'kg.value': '' })).toEqual({ 'gross.value': ['Give what the scale shows.'] });
  });
  it('keeps a quote’s lines that somebody wrote on, in whole cents', () => {
    const blank = Object.fromEntries(Object.keys(QUOTE).filter((k) => k.startsWith('lines')).map((k) => [k.replace('[0]', '[1]'), k.endsWith('kind') ? 'labour' : ''])); // prettier-ignore
    expect(send(SaveQuote, { ...QUOTE, ...blank, 'lines[0].price': '12.345' }).value?.lines).toEqual([{ kind: 'part', what: 'Fan motor', partNumber: '', quantity: 1, unit: '', price: 1235, taxed: false }]); // prettier-ignore
    const { 'lines[0].what': __, 'lines[0].price': ___, ...rest } = QUOTE;
    expect(send(SaveQuote, { ...rest, 'lines[0].what': '', 'lines[0].price': '' }).error).toEqual({ lines: ['At least one line.'] });
    // A number of the list brings its name and price along.
    expect(send(SaveQuote, { ...QUOTE, 'lines[0].what': '', 'lines[0].price': '', 'lines[0].partNumber': 'F-1' }).error).toEqual({});
    const many = (count: number) => Object.fromEntries(Array.from({ length: count }, (____, i) => [['kind', 'part'], ['what', 'x'], ['partNumber', ''], ['quantity', '1'], ['unit', ''], ['price', '1']].map(([k, v]) => [`lines[${i}].${k}`, v])).flat()); // prettier-ignore
    expect(send(SaveQuote, { ...QUOTE, ...many(40) }).error).toEqual({});
    expect(send(SaveQuote, { ...QUOTE, ...many(41) }).error).toEqual({ lines: ['At most 40 lines.'] });
    expect(send(SaveQuote, { ...QUOTE, photoIds: Array.from({ length: 7 }, () => ID) }).error).toEqual({ photoIds: ['At most six pictures.'] }); // prettier-ignore
  });
  it('asks for a time where another one is wanted', () => {
    for (const schema of [CustomerReply, AnswerVisit]) {
      const reply = { token: 't', visitId: ID, answer: 'confirmed', note: '' };
      expect(send(schema, reply).error).toEqual({});
      expect(send(schema, { ...reply, answer: 'other_time' }).error).toEqual({ startsAt: ['choose'] });
      expect(send(schema, { ...reply, answer: 'other_time', startsAt: '1796000000000' }).value).toMatchObject({ startsAt: 1_796_000_000_000, note: '' }); // prettier-ignore
      expect(send(schema, { ...reply, note: n(501) }).error).toEqual({ note: ['long'] });
    }
    for (const schema of [ChooseTime, ChooseTimeOnPage]) {
      const when = { token: 't', quoteId: ID };
      expect(send(schema, when).error).toEqual({ startsAt: ['choose'] });
      expect(send(schema, { ...when, otherTime: 'no' }).error).toEqual({ startsAt: ['choose'] });
      expect(send(schema, { ...when, otherTime: 'May' }).error).toEqual({});
      expect(send(schema, { ...when, startsAt: '0' }).error).toEqual({});
    }
  });
  it('keeps what is short on one line, and the lines of what is long', () => {
    const lines = 'a\nb';
    expect(send(NewBlackout, { kitchenId: ID, from: '2026-12-24', to: '2026-12-26', reason: lines }).value?.reason).toBe('a b');
    expect(send(JobStepTaken, { jobId: ID, from: 'asked', step: 'looked_at', reason: lines }).value?.reason).toBe(lines);
  });
  it('asks for a refrigerant’s price by the kilogram or by the pound, beside both', () => {
    const priced = (over: Sent) => send(ChoiceFigures, { ...FIGURES, ...over });
    expect(priced({ refrigerantPerKg: '' }).error).toEqual({ refrigerantPerKg: ['Write a number.'], refrigerantPerLb: ['Write a number.'] }); // prettier-ignore
    expect(priced({ refrigerantPerKg: '', refrigerantPerLb: '10' }).value?.refrigerantPerKg).toBeCloseTo(22.0462, 4);
    expect(priced({ refrigerantPerKg: '30', refrigerantPerLb: '10' }).value?.refrigerantPerKg).toBe(30);
  });
  it('says what is sent to a customer by itself only where it is ticked', () => {
    expect(send(SetSending, { id: ID, sendsReports: 'on', sendsQuarters: '' }).value).toEqual({ id: ID, sendsReports: true, sendsQuarters: false }); // prettier-ignore
    expect(send(MakePage, { customerId: ID, holder: 'Jo', language: 'en', answersQuotes: 'on' }).value?.answersQuotes).toBe(true);
    expect(send(MakePage, { customerId: ID, holder: 'Jo', language: 'en' }).value?.answersQuotes).toBe(false);
  });
  it('takes a fleet as a file or as lines, and a file up to its size', () => {
    const file = (bytes: number) => new File([new Uint8Array(bytes)], 'fleet.csv');
    const wrong = (input: unknown) => CheckFleet.safeParse(input).error?.issues.map((i) => i.message) ?? [];
    expect([wrong({ pasted: 'a,b' }), wrong({ file: file(10_000_000) })]).toEqual([[], []]);
    expect(wrong({ file: file(10_000_001) })).toEqual(['The file is larger than 10 MB. Split it.']);
    for (const none of [{}, { pasted: ' ' }, { file: file(0) }]) expect(wrong(none)).toEqual(['Choose a file or paste its lines.']);
    expect([wrong({ kitchen: ID, pasted: ' \n' }), wrong({ kitchen: ID, pasted: 'WIC' })]).toEqual([['Type a line for each unit.'], []]);
    expect(SheetChoice.safeParse({ runId: ID, of: 'column', key: n(301), value: '' }).success).toBe(false);
    expect(SheetChoice.safeParse({ runId: ID, of: 'column', key: n(300), value: n(100) }).success).toBe(true);
    const look = (bytes: number) => ReportLook.safeParse({ seen: '1', logo: file(bytes) }).success;
    expect([look(2_000_000), look(2_000_001)]).toEqual([true, false]);
  });
});

describe('the owner’s policy', () => {
  const POLICY: Sent = { intent: 'save', seen: '1', riskPercent: '10', packedRiskPercent: '5', coolingLostPercent: '10', discharge: '225', degrees: 'F', cleaningCost: '85', tripCost: '30', deepCleaningCost: '300', comebackCost: '200', inspectionCost: '20', failureCost: '1,200', hiddenFailureCostPerDay: '10', energyCostPerDayPerLnK: '1', minWeeks: '1', minWeeksUnlessSevere: '2', ...Object.fromEntries(LEARNING_TASKS.map((key) => [`maxWeeks.${key}`, '52'])), lateDays: '7', returnWithinDays: '14', cleanFindings: '2' }; // prettier-ignore
  const wrong = (over: Sent) => all(send(PolicyForm, { ...POLICY, ...over }).error);
  it('holds each figure to what a shop can mean', () => {
    expect(wrong({})).toEqual([]);
    const edges: [string, string[], string[], string][] = [
      ['riskPercent', ['1', '50'], ['0.9', '50.1'], 'Between 1 and 50 %.'],
      ['packedRiskPercent', ['0.5', '50'], ['0.4', '50.1'], 'Between 0.5 and 50 %.'],
      ['coolingLostPercent', ['2', '50'], ['1.9', '50.1'], 'Between 2 and 50 %.'],
      ['cleaningCost', ['30', '100,000'], ['100,001'], 'Between 0 and 100,000.'],
      ['failureCost', ['0'], ['-1'], 'Between 0 and 100,000.'],
      ['discharge', ['162', '287'], ['161', '288'], 'Between 161 and 287 °F.'],
      ['lateDays', ['0', '60'], ['61'], 'At most 60 days.'],
      ['returnWithinDays', ['1', '60'], ['0'], 'At least a day.'],
      ['cleanFindings', ['1', '10'], ['11'], 'At most ten.'],
      ['tripCost', ['85'], ['86'], 'The trip is a part of a cleaning’s cost, so not more than that.'],
      ['minWeeks', ['2'], ['3'], 'Not shorter than the shortest of all.'],
      [`maxWeeks.${LEARNING_TASKS[0]}`, ['2', '104'], ['1'], 'The longest interval is shorter than the shortest.'],
    ];
    for (const [field, fits, beyond, message] of edges) {
      for (const value of fits) expect(wrong({ [field]: value }), `${field} ${value}`).toEqual([]);
      for (const value of beyond) expect(wrong({ [field]: value }), `${field} ${value}`).toEqual([message]);
    }
    const asked: [string, Record<string, string>][] = [
      ['riskPercent', { '': 'Write a number.', some: 'Write a number.' }],
      ['comebackCost', { '': 'Write a number.', '-1': 'Between 0 and 100,000.' }],
      ['minWeeks', { '': 'Write whole weeks.', '1.5': 'Whole weeks.', '0': 'At least one week.' }],
      ['minWeeksUnlessSevere', { '105': 'At most 104 weeks.' }],
      [`maxWeeks.${LEARNING_TASKS[0]}`, { '': 'Write whole weeks.', '105': 'At most 104 weeks.' }],
      ['lateDays', { '': 'Write whole days.', '1.5': 'Whole days.', '-1': 'Not below nothing.' }],
      ['returnWithinDays', { '': 'Write whole days.', '1.5': 'Whole days.', '61': 'At most 60 days.' }],
      ['cleanFindings', { '': 'Write a whole number.', '1.5': 'A whole number.', '0': 'At least one.' }],
      ['discharge', { '': 'Write a number.', '401': 'That is no discharge temperature.', '-101': 'That is no discharge temperature.' }],
    ];
    for (const [field, refused] of asked) for (const [value, message] of Object.entries(refused)) expect(wrong({ [field]: value }), `${field} “${value}”`).toContain(message); // prettier-ignore
    expect(wrong({ degrees: 'C' })).toEqual(['Between 72 and 142 °C.']);
    expect(wrong({ degrees: 'C', discharge: '107' })).toEqual([]);
  });
  it('becomes the rules that the shop goes by, and leaves what it does not show', () => {
    const { value } = send(PolicyForm, POLICY);
    const rules = policyFromForm(DEFAULT_POLICY, value ?? expect.fail('it was refused'));
    const shown = { risk: 0.1, packedRisk: 0.05, cleaningCost: 85, tripCost: 30, deepCleaningCost: 300, comebackCost: 200, inspectionCost: 20, failureCost: 1200, hiddenFailureCostPerDay: 10, energyCostPerDayPerLnK: 1, minWeeks: 1, minWeeksUnlessSevere: 2, lateDays: 7, returnWithinDays: 14, cleanFindings: 2 }; // prettier-ignore
    expect(rules).toMatchObject(shown);
    expect(rules.ownLimits?.coolingLost).toBeCloseTo(0.1, 12);
    expect(rules.ownLimits?.dischargeK).toBeCloseTo(380.372, 3);
    expect(Object.values(rules.maxWeeks).every((weeks) => weeks === 52)).toBe(true);
    const untouched = Object.keys(DEFAULT_POLICY).filter((key) => !(key in shown) && key !== 'ownLimits' && key !== 'maxWeeks');
    expect(untouched.length).toBeGreaterThan(0);
    for (const key of untouched) expect(rules).toHaveProperty(key, DEFAULT_POLICY[key as keyof typeof DEFAULT_POLICY]);
  });
});

describe('what is not a form', () => {
  const takes = (schema: z.ZodType, value: unknown) => schema.safeParse(value).success;
  it('is held to its bounds likewise', () => {
    const fix = { id: ID, visitId: ID, lat: 90, lng: -180, accuracyM: 100_000, at: '2026-11-28T10:00:00Z' };
    const fixes = (over: object, count = 1) => takes(Arrivals, { fixes: Array.from({ length: count }, () => ({ ...fix, ...over })) });
    expect([fixes({}), fixes({ lat: -90, lng: 180, accuracyM: 0 }), fixes({}, 200)]).toEqual([true, true, true]);
    for (const over of [{ lat: 90.1 }, { lat: -90.1 }, { lng: 180.1 }, { lng: -180.1 }, { accuracyM: -1 }, { accuracyM: 100_001 }, { at: 'today' }]) expect(fixes(over)).toBe(false); // prettier-ignore
    expect(fixes({}, 201)).toBe(false);
    const place = (index: number, count = 1) => takes(AcceptPlaces, { taken: Array.from({ length: count }, () => ({ kitchenId: ID, index })) }); // prettier-ignore
    expect([place(0), place(9), place(0, 500), place(-1), place(10), place(0.5), place(0, 0), place(0, 501)]).toEqual([true, true, true, false, false, false, false, false]); // prettier-ignore
    const move = { visitId: ID, version: 1, technicianId: ID, startMs: 0, endMs: 8.64e15 };
    const taken = (over: object, moves = 1) => takes(SqueezeTake, { kitchenId: ID, unitIds: [], taskIds: [], what: 'Hot', minutes: 10, technicianId: ID, startMs: 0, moves: Array.from({ length: moves }, () => move), ...over }); // prettier-ignore
    expect([taken({}), taken({ minutes: 720 }), taken({}, 50)]).toEqual([true, true, true]);
    for (const over of [{ minutes: 9 }, { minutes: 721 }, { what: 'no' }, { what: n(501) }, { startMs: -1 }, { startMs: 8.64e15 + 2 }]) expect(taken(over)).toBe(false); // prettier-ignore
    expect(taken({}, 51)).toBe(false);
    const away = (to: string, moves = 1) => takes(SendAway, { userId: ID, from: '2026-12-01', to, reason: '', moves: Array.from({ length: moves }, () => move) }); // prettier-ignore
    expect([away('2026-12-01'), away('2026-11-30'), away('2026-12-02', 200), away('2026-12-02', 201)]).toEqual([true, false, true, false]);
    expect([takes(AcceptPlan, { runId: ID, visits: [{ key: 'a' }] }), takes(AcceptPlan, { runId: ID, visits: [] }), takes(AcceptPlan, { runId: ID, visits: [{ key: 'a', startMs: -1 }] })]).toEqual([true, false, false]); // prettier-ignore
    const upload = (over: object) => takes(UploadPiece, { sha256: 'a1'.repeat(32), pieces: '64', index: '63', ...over });
    expect([upload({}), upload({ index: '64' }), upload({ index: '-1' }), upload({ pieces: '65' }), upload({ pieces: '0' }), upload({ sha256: 'A1'.repeat(32) })]).toEqual([true, false, false, false, false, false]); // prettier-ignore
    expect(takes(UploadAsked, { sha256: 'a'.repeat(63), pieces: '1' })).toBe(false);
    expect([takes(ChoosePassword, { token: n(100), password: 'x' }), takes(ChoosePassword, { token: n(101), password: 'x' })]).toEqual([true, false]); // prettier-ignore
  });
});
