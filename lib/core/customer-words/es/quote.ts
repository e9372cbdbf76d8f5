import type { QUOTE_EN } from '../en/quote';

/** A quote as its page shows it. */
export const QUOTE_ES: typeof QUOTE_EN = {
  title: (number) => `Presupuesto ${number}`,
  tab: 'Su presupuesto',
  table: 'Cuánto es',
  what: 'Qué',
  howMany: 'Cuánto',
  price: 'Precio',
  amount: 'Importe',
  kind: { labour: 'Mano de obra', part: 'Repuesto', refrigerant: 'Refrigerante', trip: 'Viaje', other: 'Otro' },
  picture: (number, day) => `Foto ${number}, tomada el ${day}`,
  tax: (percent) => `Impuesto, ${percent} % de lo gravado`,
  inAll: 'En total',
  until: (day) => `Válido hasta el ${day}.`,
  pdf: 'En PDF',
  answer: {
    heading: 'Su respuesta',
    name: 'Su nombre',
    note: 'Algo que debamos saber',
    accept: 'Aceptar',
    decline: 'Rechazar',
    accepted: 'Aceptado',
    declined: 'Rechazado',
    by: (name) => `por ${name}.`,
    afterAccepted: 'Llamamos para acordar una fecha.',
    afterDeclined: 'Gracias por avisarnos.',
    notYours: 'Quien acepta presupuestos en su empresa tiene su propio enlace. Pregunte al taller si debería ser usted.',
    twice: 'Este presupuesto ya fue respondido. Llame al taller para cambiarlo.',
    nameMissing: 'Escriba su nombre.',
  },
};
