import { isKeyOf } from '../../typed/closed-set';
import { TASK_KIND_INFO } from '../../tasks/kinds';
import type { Aspect, Grade } from '../../findings/grades';
import { lower } from '../../wording/lower';
import type { SigningWords } from '../en/signing';
import { FOUND_ES, LEFT_STILL_ES } from './found';

const EVENT: Record<Parameters<SigningWords['event']>[0], string> = {
  high_pressure_trip: 'Corte por alta presión',
  coil_cleaned_before: 'Condensador limpiado antes de nuestra primera visita',
  compressor_replaced: 'Compresor cambiado',
  fan_replaced: 'Ventilador cambiado',
  refrigerant_added: 'Refrigerante agregado',
  washed_through: 'Condensador lavado a fondo',
  fouls_more: 'Más grasa o pelusa desde ahora',
  fouls_less: 'Menos grasa o pelusa desde ahora',
};
const SOON: Record<Parameters<SigningWords['work']>[1], string> = {
  now: 'ahora: queda apagado',
  soon: 'en pocos días',
  next: 'en la próxima visita',
  quote: 'primero un presupuesto',
};

const sentence = ({ aspect, grade }: { aspect: Aspect; grade: Grade | null }): string =>
  (grade && (FOUND_ES[aspect] as Partial<Record<Grade, string>>)[grade]) ?? '';

/** What whoever signs on the spot reads before signing. */
export const SIGNING_ES: SigningWords = {
  heading: 'Lo que se encontró y se hizo',
  nothing: 'Todavía no hay nada anotado.',
  parts: (parts) => `Repuestos: ${parts}.`,
  gone: (why) => `Ya no está: ${why}`,
  noReach: (why) => `No se pudo llegar: ${why}`,
  found: (f, left) => [sentence(f), left ? LEFT_STILL_ES(lower(sentence(left))) : ''].filter(Boolean).join(' '),
  task: (t) => (isKeyOf(TASK_KIND_INFO, t.kindKey) ? TASK_KIND_INFO[t.kindKey].spanish : t.label.toLowerCase()),
  done: (tasks) => `Hecho: ${tasks}`,
  notDone: (task, why) => `No se hizo: ${task}. ${why}`,
  food: (at, who) => `Alimentos a ${at}, avisado a ${who}`,
  event: (kind, note) => [EVENT[kind], note].filter(Boolean).join(': '),
  work: (what, urgency) => `Trabajo pedido: ${what} (${SOON[urgency]})`,
  arriving: (at) => `${at} al llegar`,
  leaving: (at) => `${at} al salir`,
  box: (parts, empty) => `Cámara: ${parts}${empty ? '; sin alimentos' : ''}`,
  signature: 'Firma',
  why: 'Firma que estuvimos aquí y lo que se encontró; nada más.',
  name: 'Nombre',
  keep: 'Guardar la firma',
  nobody: 'No hay nadie',
  nobodyThere: 'No había nadie para firmar.',
  by: (who) => `Firmado por ${who}.`,
  again: 'Firmar de nuevo',
};
