import { describe, expect, it } from 'vitest';
import { DEAD_LINK, LANGUAGE_LABEL, LANGUAGES, languageOr, wordsIn, type Language } from '@/lib/core/customer-words';
import { signingIn } from '@/lib/core/customer-words/signing';
import { ENTERED_EVENTS, UNIT_EVENT_LABEL, URGENCIES } from '@/lib/core/entries/entries';
import { ASPECTS, gradesOf } from '@/lib/core/findings/grades';
import { TASK_KEYS } from '@/lib/core/tasks/kinds';
import { QUOTE_LINE_KINDS } from '@/lib/core/jobs/quote';

// Every text that a customer reads, in both languages, held to one another and to what is put into them.

type Say = (...args: unknown[]) => unknown;
type Leaf = string | Say;

/** Every text and every text with gaps, by its path: "yours.visits.none". */
function leaves(of: object, at = ''): [string, Leaf][] {
  return Object.entries(of).flatMap(([key, v]): [string, Leaf][] => {
    const path = at ? `${at}.${key}` : key;
    return typeof v === 'object' && v !== null ? leaves(v, path) : [[path, v as Leaf]];
  });
}
const all = (language: Language) => new Map(leaves({ ...wordsIn(language), signing: signingIn(language) }).filter(([path]) => !path.startsWith('task.'))); // prettier-ignore
const [EN, ES] = [all('en'), all('es')];
const both = [
  ['en', EN],
  ['es', ES],
] as const;
const say = (language: Map<string, Leaf>, path: string, args: readonly unknown[]): string => {
  const leaf = language.get(path);
  if (typeof leaf !== 'function') throw new Error(`${path} has no gaps`);
  const text = leaf(...args);
  if (typeof text !== 'string') throw new Error(`${path} says nothing`);
  return text;
};

/** Ways to fill each text that has gaps. What is put in shows in the text, but for the words in brackets, which choose it. */
const FILLED: Record<string, readonly (readonly unknown[])[]> = {
  of: [['Mill Street', '3 May']],
  cameFrom: [['Tova', 'Larkspur', '9:05', '10:10'], ['Tova', 'Larkspur', '9:05', '']],
  lookedAfter: [[2], [0]],
  openJobs: [[2], [7]],
  notLooked: [['Drain', 'riveted shut']],
  leftStill: [['Clean.']],
  done: [[['coil cleaning', 'drain']], [['coil cleaning']]],
  notDone: [['drain', 'no key'], ['drain', '']],
  noReach: [['locked'], ['']],
  overAir: [['25 °F', '13 °F'], ['25 °F', null], [null, '13 °F']],
  costing: [['4 USD']],
  costingLittle: [['2 USD']],
  next: [['Coil cleaning', '7 June']],
  every: [[6]],
  sooner: [[9]],
  later: [[9]],
  box: [['47 °F', 'the chef', '9:05']],
  parts: [[['Fan × 2', 'Belt']], [['Belt']]],
  signed: [['Petra']],
  'page.questions': [['555-0101'], ['']],
  'letter.subject': [['Mill Street', '3 May']],
  'letter.text': [['Mill Street', '3 May', 'https://shop.example/r', '1 July']],
  'yours.of': [[4]],
  'yours.phone': [['555-0101']],
  'yours.visits.line': [['3 May', '9:00', '10:00']],
  'yours.visits.who': [['Tova']],
  'yours.visits.asked': [['7 June, 9:00']],
  'yours.visits.on': [['Mill Street']],
  'yours.another.now': [['7 June, 9:00']],
  'yours.work.since': [['3 May']],
  'yours.work.bookedFor': [['3 May']],
  'yours.quotes.open': [['Q-12', '$400']],
  'yours.quotes.until': [['3 May']],
  'yours.reports.open': [['3 May']],
  'yours.ring.alsoRing': [['555-0101'], ['']],
  'yours.letter.subject': [['Larkspur']],
  'yours.letter.text': [['Petra', 'every kitchen', 'https://shop.example/y', '1 July']],
  'yours.letter.allKitchens': [['Golden Fork']],
  'quote.title': [['Q-12']],
  'quote.unit': [['hours']],
  'quote.picture': [[3, '3 May']],
  'quote.tax': [[8.25]],
  'quote.until': [['3 May']],
  'quote.answer.by': [['Petra']],
  'quote.letter.subject': [['Mill Street', 'New gasket']],
  'quote.letter.total': [['$400', '3 May']],
  'quote.letter.open': [['https://shop.example/q']],
  'quote.partHere.subject': [['Mill Street']],
  'quote.partHere.here': [['Fan motor']],
  'quote.partHere.open': [['3 May']],
  'quote.time.asked': [['Tuesdays before nine.']],
  'quote.time.booked': [['7 June, 9:00']],
  'quarter.title': [['Golden Fork', 'January to March']],
  'quarter.lead': [[3, 2]],
  'quarter.open': [[5]],
  'quarter.costing': [['4 USD', 3, 8]],
  'quarter.costingAtMost': [['4 USD', 3, 8]],
  'quarter.visits': [[['3 May', '7 June']], [['3 May']]],
  'quarter.nextVisit': [['3 May']],
  'quarter.finished': [[4]],
  'quarter.notReached': [['3 May']],
  'quarter.unitCosting': [['3 May', '4 USD']],
  'quarter.unitAtMost': [['3 May', '4 USD']],
  'quarter.trend.faster': [[90, 60]],
  'quarter.trend.slower': [[60, 90]],
  'quarter.trend.same': [[62, 60]],
  'quarter.trend.clean': [[62, 60]],
  'quarter.letter.subject': [['Golden Fork', 'January to March']],
  'quarter.letter.text': [['Golden Fork', 'January to March', 'https://shop.example/s', '1 July']],
  'visit.headline': [['Visit booked', 'Mill Street', '3 May, 9:00']],
  'visit.when': [['3 May', '9:00', '10:00']],
  'visit.comes': [['Tova', 'Larkspur', 'Mill Street', '3 May, 9:00']],
  'visit.tomorrow': [['Tova comes.']],
  'visit.cancelled': [['Mill Street', '3 May, 9:00', 'Tova is ill'], ['Mill Street', '3 May, 9:00', '']],
  'visit.work': [['Walk-in', 'coil cleaning']],
  'visit.answer': [['https://shop.example/v']],
  'visit.noneFree': [['555-0101'], ['']],
  'visit.calendar.name': [['Golden Fork']],
  'visit.calendar.visit': [['Tova']],
  'signing.parts': [['Belt × 2']],
  'signing.gone': [['sold']],
  'signing.noReach': [['locked']],
  'signing.done': [['coil cleaning']],
  'signing.notDone': [['drain', 'no key']],
  'signing.food': [['47 °F', 'the chef']],
  'signing.arriving': [['47 °F']],
  'signing.leaving': [['39 °F']],
  'signing.by': [['Petra']],
}; // prettier-ignore
/** Those that choose by what they are given, in tests of their own below. */
const CHOOSING = ['signing.found', 'signing.task', 'signing.event', 'signing.work', 'signing.box'];
/** A place and a day, a task and a day: the same in any language. */
const ALIKE = ['of', 'quarter.title', 'visit.headline', 'visit.work', 'quote.unit'];

/** What would look broken on paper. */
function expectWhole(text: string, where: string): void {
  expect(text.trim().length, where).toBeGreaterThan(1);
  expect(text, where).not.toMatch(/undefined|null|NaN|\[object|\$\{|\(\s*\)|:\s*\.|:\s*$| {2,}|\s[.,;]|\.\.|^[\s.;:]/);
}

describe('what a customer reads', () => {
  it('stands in every language, text for text', () => {
    expect([...ES.keys()].sort()).toEqual([...EN.keys()].sort());
    const kinds = (words: Map<string, Leaf>) => [...words].map(([path, leaf]) => `${path} ${typeof leaf}`).sort();
    expect(kinds(ES)).toEqual(kinds(EN));
    for (const leaf of [...EN.values(), ...ES.values()]) expect(['string', 'function']).toContain(typeof leaf);
    // Each of them is filled in below.
    const gaps = [...EN].flatMap(([path, leaf]) => (typeof leaf === 'function' ? [path] : []));
    expect(gaps.sort()).toEqual([...Object.keys(FILLED), ...CHOOSING].sort());
  });

  it.each([...EN].flatMap(([path, text]) => (typeof text === 'string' ? [[path, text] as const] : [])))(
    '%s is words, in words of each language, a sentence in both or in neither',
    (path, english) => {
      const spanish = ES.get(path);
      if (typeof spanish !== 'string') throw new Error(path);
      for (const text of [english, spanish]) expectWhole(text.replace(/:$/, ''), path);
      expect(spanish).not.toBe(english);
      expect([...'.?…:'].find((end) => spanish.endsWith(end))).toBe([...'.?…:'].find((end) => english.endsWith(end)));
      // Begins as the other does: with a capital, a comma, or small inside a sentence. An opened question counts as its letter.
      const begins = (text: string) => (/^[¿«]?\p{Lu}/u.test(text) ? 'large' : /^\p{Ll}/u.test(text) ? 'small' : text.charAt(0));
      expect(begins(spanish)).toBe(begins(english));
      // A question in Spanish is opened too.
      expect(spanish.split('¿').length).toBe(spanish.replace('[?]', '').split('?').length);
    },
  );

  it.each(Object.keys(FILLED))('%s says all that is put into it, in both languages', (path) => {
    for (const args of FILLED[path] ?? [])
      for (const [language, words] of both) {
        const text = say(words, path, args);
        expectWhole(text, `${language} ${path}`);
        const put = args.flat().filter((a) => a !== '' && a !== null);
        for (const a of put) expect(text, `${language} ${path}`).toContain(String(a));
        // Something else in, something else said.
        const other = args.map((a) => (typeof a === 'number' ? a + 11 : typeof a === 'string' && a ? `${a}, and more` : a));
        if (put.some((a) => typeof a !== 'object') && JSON.stringify(other) !== JSON.stringify(args))
          expect(say(words, path, other)).not.toBe(text);
        if (ALIKE.includes(path)) continue;
        // More than what was put in: words of the language, not the other's.
        const own = put.reduce<string>((rest, a) => rest.replaceAll(String(a), ' '), text).trim();
        expect(own, `${language} ${path}`).toMatch(/\p{L}{2,}/u);
        const twin = say(language === 'en' ? ES : EN, path, args);
        expect(text).not.toBe(twin);
        expect(/[.?]$/.test(text)).toBe(/[.?]$/.test(twin));
      }
  });

  it('counts in words where there is one, and says so where there is none', () => {
    const one = (path: string, ...args: unknown[]) => both.map(([, words]) => say(words, path, args));
    expect(one('lookedAfter', 1)).toEqual(['One unit was looked after.', 'Se atendió un equipo.']);
    expect(one('lookedAfter', 3)).toEqual(['3 units were looked after.', 'Se atendieron 3 equipos.']);
    expect(one('openJobs', 1)).toEqual(['One thing needs work; it stands below.', 'Una cosa necesita reparación; está más abajo.']);
    expect(one('openJobs', 3)).toEqual(['3 things need work; they stand below.', '3 cosas necesitan reparación; están más abajo.']);
    expect(one('quarter.open', 1)).toEqual(one('openJobs', 1));
    expect(one('quarter.open', 3)).toEqual(one('openJobs', 3));
    expect(one('quarter.finished', 1)).toEqual(['One repair was finished.', 'Se terminó una reparación.']);
    expect(one('quarter.finished', 3)).toEqual(['3 repairs were finished.', 'Se terminaron 3 reparaciones.']);
    expect(one('every', 1)).toEqual(['every week', 'cada semana']);
    expect(one('every', 6)).toEqual(['every 6 weeks', 'cada 6 semanas']);
    expect(one('yours.of', 1).join()).not.toMatch(/\d/);
    expect(one('yours.of', 2)).toEqual(['Refrigeration in 2 kitchens', 'Refrigeración en 2 cocinas']);
    expect(one('quarter.lead', 0, 1)).toEqual(['No visit fell into this quarter.', 'En este trimestre no hubo visitas.']);
    expect(one('quarter.lead', 0, 4)).toEqual(one('quarter.lead', 0, 1));
    expect(one('quarter.lead', 1, 1)).toEqual(['There was one visit to your kitchen.', 'Hubo una visita a su cocina.']);
    expect(one('quarter.lead', 2, 1)).toEqual(['There were 2 visits to your kitchen.', 'Hubo 2 visitas a su cocina.']);
    expect(one('quarter.lead', 2, 3)).toEqual(['There were 2 visits to 3 kitchens.', 'Hubo 2 visitas a 3 cocinas.']);
    expect(one('quarter.visits', ['3 May']).map((t) => t.split(':')[0])).toEqual(['Visit', 'Visita']);
    expect(one('quarter.visits', ['3 May', '4 May'])).toEqual(['Visits: 3 May; 4 May.', 'Visitas: 3 May; 4 May.']);
  });

  it('tells of how many units a figure is only where some were not read', () => {
    for (const [, words] of both)
      for (const path of ['quarter.costing', 'quarter.costingAtMost']) {
        const [whole, part] = [say(words, path, ['4 USD', 8, 8]), say(words, path, ['4 USD', 3, 8])];
        expect(whole).not.toContain('8');
        expect(part.startsWith(`${whole} `)).toBe(true);
        expectWhole(whole, path);
      }
  });

  it('names what was not given nowhere: no phone, no reason, no time of leaving', () => {
    const said = (path: string, ...args: unknown[]) => both.map(([, words]) => say(words, path, args));
    expect(said('cameFrom', 'Tova', 'Larkspur', '9:05', '')).toEqual(['Tova of Larkspur was with you from 9:05.', 'Tova, de Larkspur, estuvo con ustedes desde las 9:05.']); // prettier-ignore
    expect(said('cameFrom', 'Tova', 'Larkspur', '9:05', '10:10')).toEqual(['Tova of Larkspur was with you from 9:05 to 10:10.', 'Tova, de Larkspur, estuvo con ustedes de 9:05 a 10:10.']); // prettier-ignore
    expect(said('notDone', 'drain', '')).toEqual(['Not done: drain.', 'No se hizo: drain.']);
    expect(said('noReach', '')).toEqual(['We could not get to it.', 'No pudimos llegar al equipo.']);
    expect(said('page.questions', '')).toEqual(['Questions? Ring the shop.', '¿Preguntas? Llame al taller.']);
    expect(said('yours.ring.alsoRing', '').every((t) => /shop|taller/.test(t))).toBe(true);
    expect(said('visit.noneFree', '').every((t) => /the shop\.|al taller\./.test(t))).toBe(true);
    expect(said('visit.cancelled', 'Mill Street', '3 May', '')).toEqual(['Our visit to Mill Street (3 May) is cancelled.', 'Se cancela nuestra visita a Mill Street (3 May).']); // prettier-ignore
    // A reason is a sentence, whether it was written as one or not.
    for (const reason of ['Tova is ill', 'Tova is ill.']) expect(said('visit.cancelled', 'Mill Street', '3 May', reason).every((t) => t.endsWith(': Tova is ill.'))).toBe(true); // prettier-ignore
  });

  it('tells the head over the air before, after, or both, and which is which', () => {
    for (const [, words] of both) {
      const [twice, before, after] = [
        ['25 °F', '13 °F'],
        ['25 °F', null],
        [null, '13 °F'],
      ].map((a) => say(words, 'overAir', a));
      expect(twice).toMatch(/25 °F.*13 °F/);
      expect(new Set([twice, before, after]).size).toBe(3);
      expect(before).not.toContain('13 °F');
      expect(after).not.toContain('25 °F');
      // One that was read after the work only is not told as if it were met so.
      expect(after?.replace('13 °F', '25 °F')).not.toBe(before);
    }
  });

  it('says the sooner and the later, the faster and the slower, by words of their own', () => {
    for (const [, words] of both) {
      const trends = ['faster', 'slower', 'same', 'clean'].map((t) => say(words, `quarter.trend.${t}`, [60, 90]));
      expect(new Set(trends).size).toBe(4);
      expect(say(words, 'sooner', [9])).not.toBe(say(words, 'later', [9]));
      for (const t of [...trends]) expect(t).toMatch(/90 (days|días).*60/);
    }
  });
});

describe('what whoever signs reads', () => {
  const [en, es] = [signingIn('en'), signingIn('es')];
  it('is each grade, and how it was left, in words of the language', () => {
    for (const words of [en, es]) {
      const sentences = ASPECTS.flatMap((aspect) => gradesOf(aspect).map(({ grade }) => words.found({ aspect, grade }, undefined)));
      expect(new Set(sentences).size).toBe(sentences.length);
      for (const aspect of ASPECTS) {
        const [best, worst] = [gradesOf(aspect)[0], gradesOf(aspect).at(-1)].map((g) => ({ aspect, grade: g?.grade ?? null }));
        if (!best || !worst) throw new Error(aspect);
        const [met, both] = [words.found(worst, undefined), words.found(worst, best)];
        expect(both.startsWith(met)).toBe(true);
        expect(both.length).toBeGreaterThan(met.length + 5);
        expectWhole(both, aspect);
      }
    }
  });

  it('is each kind of task, event and urgency in Spanish, and a kind of the shop’s own in the shop’s words', () => {
    const spanish = TASK_KEYS.map((kindKey) => es.task({ kindKey, label: 'Own Words' }));
    expect(new Set(spanish).size).toBe(TASK_KEYS.length);
    for (const text of spanish) expectWhole(text, text);
    for (const words of [en, es]) {
      expect(words.task({ kindKey: 'own_kind', label: 'Own Words' })).toBe('own words');
      expect(words.task({ kindKey: 'toString', label: 'Own Words' })).toBe('own words');
      const events = ENTERED_EVENTS.flatMap((kind) => (kind === 'note' ? [] : [[words.event(kind, ''), words.event(kind, 'twice')]]));
      for (const [bare = '', noted] of events) {
        expectWhole(bare, bare);
        expect(noted).toBe(`${bare}: twice`);
      }
      expect(new Set(events.map(([bare]) => bare)).size).toBe(events.length);
      const soon = URGENCIES.map((u) => words.work('New gasket', u));
      expect(new Set(soon).size).toBe(URGENCIES.length);
      for (const text of soon) expect(text).toMatch(/New gasket \(\p{Ll}.+\)$/u);
    }
    for (const kind of ENTERED_EVENTS) if (kind !== 'note') expect([en.event(kind, ''), es.event(kind, '') === en.event(kind, '')]).toEqual([UNIT_EVENT_LABEL[kind], false]); // prettier-ignore
    expect(es.event('coil_cleaned_before', '')).toMatch(/^\p{Lu}.*primera visita$/u);
    expect(en.task({ kindKey: 'coil_cleaning', label: 'Coil cleaning' })).toBe('coil cleaning');
  });

  it('is the box as it stood, and that no food was in it where that is so', () => {
    for (const words of [en, es]) {
      const [full, empty] = [words.box('47 °F', false), words.box('47 °F', true)];
      expect(full).toContain('47 °F');
      expect(empty.startsWith(`${full};`)).toBe(true);
      expectWhole(full, full);
    }
    expect(es.box('47 °F', false)).not.toBe(en.box('47 °F', false));
  });
});

describe('languages', () => {
  it('each have their own name, and each page leads to the other by it', () => {
    expect(LANGUAGES.map((l) => LANGUAGE_LABEL[l])).toEqual(['English', 'Español']);
    expect([wordsIn('en').yours.inOther, wordsIn('es').yours.inOther]).toEqual([LANGUAGE_LABEL.es, LANGUAGE_LABEL.en]);
  });
  it('are the one asked for where there is such a one, else the one on file', () => {
    expect([languageOr('es', 'en'), languageOr('en', 'es'), languageOr('fr', 'es'), languageOr(undefined, 'es'), languageOr('', 'en')]).toEqual(['es', 'en', 'es', 'es', 'en']); // prettier-ignore
  });
  it('all say what a dead link is, since nobody knows whose it was', () => {
    for (const l of LANGUAGES) expect(DEAD_LINK).toContain(wordsIn(l).deadLink.text);
  });
  it('name every kind of line of a quote, and the units that the form offers; another as it was written', () => {
    for (const l of LANGUAGES) {
      const kinds = QUOTE_LINE_KINDS.map((k) => wordsIn(l).quote.kind[k]);
      expect(new Set(kinds).size).toBe(QUOTE_LINE_KINDS.length);
      expect(wordsIn(l).quote.unit('hour')).toBe('hour');
    }
    expect(['pcs', 'trip', 'toString'].map(wordsIn('es').quote.unit)).toEqual(['uds.', 'viaje', 'toString']);
    expect(['pcs', 'trip'].map(wordsIn('en').quote.unit)).toEqual(['pcs', 'trip']);
  });
  it('name every kind of task in Spanish; in English a kind has the shop’s own word', () => {
    expect(wordsIn('en').task).toEqual({});
    expect(Object.keys(wordsIn('es').task).sort()).toEqual([...TASK_KEYS].sort());
    for (const key of TASK_KEYS) expect(wordsIn('es').task[key]).toBe(signingIn('es').task({ kindKey: key, label: 'x' }));
  });
});
