import type { VISIT_EN } from '../en/visit';

/** A visit as its letters, its page and its calendar tell of it. */
export const VISIT_ES: typeof VISIT_EN = {
  subject: { booked: 'Visita reservada', moved: 'Visita cambiada', cancelled: 'Visita cancelada', reminder: 'Visita mañana' },
  headline: (news, kitchen, when) => `${news}: ${kitchen}, ${when}`,
  when: (day, from, to) => `${day}, de ${from} a ${to}`,
  comes: (technician, shop, kitchen, when) => `${technician}, de ${shop}, va a ${kitchen}: ${when}.`,
  tomorrow: (sentence) => `Mañana: ${sentence}`,
  cancelled: (kitchen, when, reason) =>
    `Se cancela nuestra visita a ${kitchen} (${when}).${reason ? ` Motivo: ${reason.replace(/\.$/, '')}.` : ''}`,
  lookAfter: 'Atendemos:',
  work: (unit, task) => `${unit}: ${task}`,
  power:
    'Los equipos se apagan por turnos mientras se limpian sus condensadores; mantenga las puertas cerradas y los alimentos fríos mientras tanto.',
  answer: (address) => `Confirme o pida otra hora: ${address}`,
  someShop: 'Su taller de refrigeración',
  thanks: { confirmed: 'Confirmado. Hasta entonces.', other_time: 'Avisado. El taller cambia la visita y le escribe otra vez.' },
  asked: 'Ustedes pidieron otra hora.',
  noneFree: (phone) => `No hay ninguna hora libre en las próximas dos semanas. ${phone ? `Llame al ${phone}.` : 'Llame al taller.'}`,
  errors: { choose: 'Elija una de las horas.', long: 'Es demasiado largo.', two: 'Elija una de las dos respuestas.' },
  calendar: {
    name: (whose) => `${whose}, visitas de refrigeración`,
    visit: (technician) => `Visita de refrigeración, ${technician}`,
  },
};
