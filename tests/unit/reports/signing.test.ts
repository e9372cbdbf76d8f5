import { expect, it } from 'vitest';
import { signingIn } from '@/lib/core/customer-words/signing';
import { ASPECTS, gradesOf } from '@/lib/core/findings/grades';

const es = signingIn('es');
const en = signingIn('en');

it('whoever signs reads each grade in Spanish, and what was left', () => {
  for (const aspect of ASPECTS)
    for (const { grade } of gradesOf(aspect))
      expect(es.found({ aspect, grade }, undefined), `${aspect} ${grade}`).toMatch(/^[A-ZÁÉÍÓÚÑ].+\.$/);
  expect(es.found({ aspect: 'coil', grade: 'matted' }, { aspect: 'coil', grade: 'bare' })).toBe(
    'El condensador estaba cubierto: el aire pasaba solo por partes. Después del trabajo: el condensador estaba limpio.',
  );
  expect(es.task({ kindKey: 'coil_cleaning', label: 'Coil cleaning' })).toBe('limpieza del condensador');
  expect(es.task({ kindKey: 'water_filter', label: 'Water filter' })).toBe('water filter');
});

it('and in English what stood there before', () => {
  expect(en.found({ aspect: 'coil', grade: 'matted' }, { aspect: 'coil', grade: 'bare' })).toMatch(/ found matted, left bare$/);
  expect(en.box('41 °F on arrival', true)).toBe('Box 41 °F on arrival; no food in it');
  expect(en.event('fan_replaced', '')).toBe('Fan replaced');
});

it('no plain text is the same in both', () => {
  const texts = (language: typeof en) => Object.values(language).filter((w) => typeof w === 'string');
  expect(texts(es).filter((w) => texts(en).includes(w))).toEqual([]);
});
