import { describe, expect, it } from 'vitest';
import { EditKitchen, NewKitchen } from '@/lib/schemas/customers/kitchens';
import { EditPerson, NewPerson } from '@/lib/schemas/people/people';
import { EditRule, NewTask } from '@/lib/schemas/visits/tasks';
import { EditShop, SetCosts, SetUp } from '@/lib/schemas/shop/shop';
import { NewUnit } from '@/lib/schemas/equipment/equipment';
import { send } from './support/send';

const ID = '6f1f3a58-2a0e-4d43-9e68-0c3b0a5f3a10';

const UNIT = {
  kitchenId: ID, name: ' Fry line ', tag: '', kind: 'drawer_base', placement: 'fryer', refrigerant: 'R290', 'chargeKg.unit': 'oz', 'chargeKg.value': '16', application: 'medium', expansion: 'capillary', circuitAccess: 'sealed',
  condenserKind: 'fin_and_tube', 'cutoutPaGauge.unit': 'psig', 'cutoutPaGauge.value': '', 'boxSetK.unit': 'F', 'boxSetK.value': '32', headControl: '', 'nominalCoolingW.unit': 'btuh', 'nominalCoolingW.value': '', 'runHoursPerDay.unit': 'h', 'runHoursPerDay.value': '', 'airOverRoomK.unit': 'F', 'airOverRoomK.value': '', airProfile: '', thermometerClass: '', make: '', model: '', serial: '', notes: '', lastCleanedOn: '', firstDueOn: '2026-05-01',
  'compressorMap.massFlow': '', 'compressorMap.power': '', 'compressorMap.units': 'F_lb_per_h', 'compressorMap.ratedSuperheatK': '',
}; // prettier-ignore

describe('a unit’s form', () => {
  it('becomes SI in the units it was typed in', () => {
    const { value, error } = send(NewUnit, UNIT);
    expect(error).toEqual({});
    expect(value).toMatchObject({
      name: 'Fry line',
      tag: undefined,
      cutoutPaGauge: null,
      headControl: null,
      nominalCoolingW: null,
      airProfile: null,
      compressorMap: null,
      firstDueOn: '2026-05-01',
      lastCleanedOn: undefined,
    });
    expect(value?.chargeKg).toBeCloseTo(0.45359237, 10);
    expect(value?.boxSetK).toBeCloseTo(273.15, 10);
    expect(send(NewUnit, { ...UNIT, 'boxSetK.unit': 'C', 'boxSetK.value': '-18' }).value?.boxSetK).toBeCloseTo(255.15, 10);
  });

  it('keeps what nobody knows apart from no', () => {
    expect(send(NewUnit, { ...UNIT, headControl: 'no' }).value?.headControl).toBe(false);
    expect(send(NewUnit, { ...UNIT, headControl: 'yes', refrigerant: 'unknown' }).value).toMatchObject({
      headControl: true,
      refrigerant: 'unknown',
    });
    const running = send(NewUnit, {
      ...UNIT,
      'nominalCoolingW.value': '2400',
      'airOverRoomK.value': '9',
      airProfile: 'season',
      refrigerant: 'R402A',
    });
    expect(running.value).toMatchObject({ airProfile: 'season', refrigerant: 'R402A' });
    expect(running.value?.nominalCoolingW).toBeCloseTo(703.37, 1);
    expect(running.value?.airOverRoomK).toBeCloseTo(5, 9);
  });

  it('puts each message beside its field, in the units of the form', () => {
    const { error } = send(NewUnit, {
      ...UNIT,
      name: '',
      kind: '',
      refrigerant: 'R999',
      'chargeKg.value': 'one and a half',
      'cutoutPaGauge.value': '9999',
      'boxSetK.value': '999',
      tag: 'no spaces here',
      'compressorMap.massFlow': '1 2 3',
      lastCleanedOn: '31/12/2025',
    });
    expect(error).toEqual({
      name: ['Give the unit a name.'],
      kind: ['Choose: kind.'],
      refrigerant: ['Choose one from the list.'],
      'chargeKg.value': ['Write a number.'],
      'cutoutPaGauge.value': ['Between 30 and 2170 psig is possible.'],
      'boxSetK.value': ['Between -76 and 77 °F is possible.'],
      tag: ['2 to 40 letters, digits, dots, dashes and underscores.'],
      'compressorMap.massFlow': ['Ten numbers are wanted; here are 3.'],
      'compressorMap.power': ['A map has both: mass flow and power.'],
      lastCleanedOn: ['Give a date as year-month-day.'],
    });
  });

  it('takes a compressor map as ten numbers twice', () => {
    const ten = '1, 2 3\n4 5 6 7 8 9 1e-5';
    expect(send(NewUnit, { ...UNIT, 'compressorMap.massFlow': ten, 'compressorMap.power': ten }).value?.compressorMap).toEqual({
      massFlow: [1, 2, 3, 4, 5, 6, 7, 8, 9, 1e-5],
      power: [1, 2, 3, 4, 5, 6, 7, 8, 9, 1e-5],
      units: 'F_lb_per_h',
      ratedSuperheatK: 11.1,
    });
    expect(send(NewUnit, { ...UNIT, 'compressorMap.massFlow': ten }).error).toEqual({
      'compressorMap.power': ['A map has both: mass flow and power.'],
    });
  });
});

const KITCHEN = {
  customerId: ID, name: 'Mill Street', address: '', timeZone: 'America/Chicago', 'altitude.unit': 'ft', 'altitude.value': '1000', lat: '', lng: '', accessNotes: '', contactName: '', contactPhone: '', contactEmail: '', energyPricePerKwh: '0.17',
  'hotDayAir.unit': 'F', 'hotDayAir.value': '95', preferredWeekday: '', 'serviceHours.mon': '6-10:30, 14-16', 'serviceHours.tue': '', 'serviceHours.wed': '', 'serviceHours.thu': '', 'serviceHours.fri': '', 'serviceHours.sat': '', 'serviceHours.sun': 'closed',
}; // prettier-ignore

describe('a kitchen’s form', () => {
  it('reads hours, height, price and air', () => {
    const { value } = send(NewKitchen, { ...KITCHEN, preferredWeekday: '0' });
    expect(value).toMatchObject({
      lat: null,
      lng: null,
      energyPricePerKwh: 0.17,
      preferredWeekday: 0,
      serviceHours: [
        { weekday: 0, from: '06:00', to: '10:30' },
        { weekday: 0, from: '14:00', to: '16:00' },
      ],
    });
    expect(value?.altitudeM).toBeCloseTo(304.8, 9);
    expect(value?.hotDayAirK).toBeCloseTo(308.15, 9);
    expect(send(NewKitchen, { ...KITCHEN, energyPricePerKwh: '' }).value).toMatchObject({
      energyPricePerKwh: null,
      preferredWeekday: null,
    });
  });

  it('says what is wrong beside the day, the zone and the position', () => {
    const { error } = send(EditKitchen, {
      ...KITCHEN,
      id: ID,
      version: '3',
      timeZone: 'Chicagoland',
      position: 'Mill Street',
      'serviceHours.tue': '22:00-02:00',
      'altitude.value': '99999',
    });
    expect(Object.keys(error).sort()).toEqual(['altitude.value', 'position', 'serviceHours.tue', 'timeZone']);
    expect(send(EditKitchen, { ...KITCHEN, id: ID, version: '3', position: '41.5, -87' }).value).toMatchObject({ lat: 41.5, lng: -87 });
    expect(send(EditKitchen, { ...KITCHEN, id: ID, version: '3', position: '9QCJ+2VX' }).value).toMatchObject({
      lat: null,
      shortCode: '9QCJ+2VX',
    });
  });
});

const PERSON = {
  name: 'Tova Lind',
  email: 'Tova@Shop.example',
  role: 'technician',
  gaugeGrade: '1A',
  'gaugeSpan.unit': 'psig',
  'gaugeSpan.value': '500',
  homeLat: '',
  homeLng: '',
};

describe('a person’s form', () => {
  it('takes none, one or several skills, and the e-mail in small letters', () => {
    const edit = { ...PERSON, id: ID, version: '1' };
    expect(send(EditPerson, edit).value).toMatchObject({ skills: [], email: 'tova@shop.example', shifts: [] });
    expect(send(EditPerson, { ...edit, skills: 'roof' }).value?.skills).toEqual(['roof']);
    expect(send(EditPerson, { ...edit, skills: ['roof', 'flammable'] }).value?.skills).toEqual(['roof', 'flammable']);
    expect(send(EditPerson, edit).value?.gaugeSpanPa).toBeCloseTo(3_447_378.6, 0);
  });

  it('refuses a weak password in one sentence; without any, a link to choose one is sent', () => {
    expect(send(NewPerson, { ...PERSON, password: 'short' }).error).toEqual({ password: ['Too short: at least 12 characters.'] });
    expect(send(NewPerson, { ...PERSON, password: '' }).value?.password).toBe('');
    expect(send(NewPerson, { ...PERSON, password: 'tova.lind.12' }).error).toEqual({
      password: ['That is too close to the name or the e-mail.'],
    });
    expect(send(NewPerson, { ...PERSON, password: 'four plain little words' }).error).toEqual({});
  });
});

describe('a rule’s form', () => {
  const RULE = { unitId: ID, kindKey: 'coil_cleaning', form: 'weeks', weeks: '6', weekday: '1', anchor: 'last_completed', firstDueOn: '' };

  it('takes weeks, or a rule where weeks cannot say it', () => {
    expect(send(NewTask, RULE).value?.rule).toBe('FREQ=WEEKLY;INTERVAL=6;BYDAY=TU');
    expect(send(NewTask, { ...RULE, weekday: '' }).value?.rule).toBe('FREQ=WEEKLY;INTERVAL=6');
    expect(send(NewTask, { ...RULE, form: 'rule', ruleText: 'rrule:freq=monthly;byday=1TU' }).value?.rule).toBe('FREQ=MONTHLY;BYDAY=1TU');
  });

  it.each([
    [{ weeks: '' }, 'weeks', 'Write how many weeks'],
    [{ weeks: '2.5' }, 'weeks', 'Whole weeks'],
    [{ weeks: '0' }, 'weeks', 'At least 1'],
    [{ form: 'rule', ruleText: '' }, 'ruleText', 'Write the rule'],
    [{ form: 'rule', ruleText: 'every tuesday' }, 'ruleText', 'is not a part of a recurrence rule'],
    [{ form: 'rule', ruleText: 'FREQ=WEEKLY;BYDAY=XX' }, 'ruleText', 'BYDAY takes MO'],
    [{ form: 'rule', ruleText: 'FREQ=HOURLY' }, 'ruleText', 'by the hour'],
  ])('says what is wrong with %j', (change, field, expected) => {
    const { error } = send(NewTask, { ...RULE, ...change });
    expect((error as Record<string, string[] | null>)[field]?.join()).toContain(expected);
  });

  it('asks for a reason and for bounds in order', () => {
    const { error } = send(EditRule, { taskId: ID, version: '1', ...RULE, minWeeks: '9', maxWeeks: '4', reason: '' });
    expect(error).toEqual({ reason: ['Say why the rule changes; it stays with the history.'] });
    expect(send(EditRule, { taskId: ID, version: '1', ...RULE, minWeeks: '9', maxWeeks: '4', reason: 'because' }).error).toEqual({
      maxWeeks: ['The longest interval is shorter than the shortest.'],
    });
  });
});

describe('the shop’s forms', () => {
  it('takes money as people write it, and says what is wrong with what is none', () => {
    const costs = { seen: '1', distance: 'km', labourPerHour: '$48', vehicle: '0,70', cleaningCost: '85 USD', inspectionCost: '20', failureCost: '1,200', energyPricePerKwh: '.14' }; // prettier-ignore
    expect(send(SetCosts, costs).value).toMatchObject({ labourPerHour: 48, vehiclePerKm: 0.7, cleaningCost: 85, failureCost: 1200, energyPricePerKwh: 0.14 }); // prettier-ignore
    expect(send(SetCosts, { ...costs, failureCost: 'a lot', cleaningCost: '', labourPerHour: '3,000' }).error).toEqual({
      failureCost: ['Write an amount, like 1,200 or 0.70.'],
      cleaningCost: ['Give what one coil cleaning costs you.'],
      labourPerHour: ['At most 2,000.'],
    });
  });
  it('know currencies and zones', () => {
    const shop = {
      shop: 'Larkspur',
      timeZone: 'America/Denver',
      currency: 'usd',
      name: 'Maren',
      email: 'm@shop.example',
      code: '2718-2818-2845',
      password: 'four plain little words',
    };
    expect(send(SetUp, shop).value?.currency).toBe('USD');
    expect(Object.keys(send(SetUp, { ...shop, currency: 'XXQ', timeZone: 'Mars/Olympus' }).error).sort()).toEqual(['currency', 'timeZone']);
  });

  it('hold the figures of planning to what is possible', () => {
    const shop = {
      name: 'L',
      timeZone: 'UTC',
      currency: 'USD',
      phone: '',
      email: '',
      lat: '',
      lng: '',
      overdueLimitDays: '-1',
      overShiftMinutes: '0',
      circuity: '0.5',
      region: 'us',
      dates: 'month_first',
      speed: '100',
      distance: 'mi',
      seen: '',
    };
    expect(Object.keys(send(EditShop, shop).error).sort()).toEqual(expect.arrayContaining(['circuity', 'overdueLimitDays']));
    const fits = { ...shop, overdueLimitDays: '14', circuity: '1.3', seen: 'then' };
    // 130 km/h is 80.8 mph.
    expect(send(EditShop, fits).error).toEqual({ speed: ['Between 2 and 80 mph.'] });
    expect(send(EditShop, { ...fits, speed: '25' }).value?.speedKmh).toBeCloseTo(40.2336, 6);
    expect(send(EditShop, { ...fits, speed: '25', distance: 'km' }).value?.speedKmh).toBe(25);
  });
});
