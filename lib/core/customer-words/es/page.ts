import type { PAGE_EN } from '../en/page';

/** The customer's own page. */
export const PAGE_ES: typeof PAGE_EN = {
  tab: 'Su refrigeración',
  of: (kitchens) => (kitchens === 1 ? 'Refrigeración: visitas, informes y trabajo pendiente' : `Refrigeración en ${kitchens} cocinas`),
  inOther: 'English',
  back: 'Volver a su página',
  phone: (phone) => `Teléfono ${phone}`,
  visits: {
    heading: 'Próximas visitas',
    none: 'Por ahora no hay ninguna visita reservada.',
    line: (day, from, to) => `${day}, de ${from} a ${to}`,
    who: (technician) => `Viene ${technician}.`,
    power: 'Los equipos se apagan por turnos mientras se limpian: mantenga las puertas cerradas.',
    suits: 'Nos queda bien',
    other: 'Preferimos otra hora',
    confirmed: 'Ustedes confirmaron esta visita.',
    asked: (when) => `Ustedes pidieron ${when} en su lugar. El taller responde; hasta entonces la visita queda como está.`,
    on: (kitchen) => `Visita a ${kitchen}`,
  },
  another: {
    title: 'Otra hora',
    now: (when) => `La visita está reservada para ${when}.`,
    free: 'Horas libres',
    none: 'No hay ninguna hora libre en las próximas dos semanas. Por favor llame al taller.',
    note: 'Algo que debamos saber',
    ask: 'Pedir esta hora',
    choose: 'Elija una de las horas.',
    taken: 'Esa hora se ocupó hace un momento. Elija otra.',
    notBooked: 'Esta visita ya no está reservada como antes. Vuelva a mirar su página.',
  },
  work: {
    heading: 'Trabajo pendiente',
    none: 'No hay trabajo pendiente.',
    since: (day) => `desde el ${day}`,
    state: {
      asked: 'En la oficina',
      looked_at: 'Revisado; la oficina decide qué sigue',
      quoted: 'Espera una respuesta al presupuesto',
      agreed: 'Acordado; aún sin fecha',
      part_ordered: 'Se pidió un repuesto',
      booked: 'Reservado',
      done: 'Hecho',
      declined: 'Rechazado',
    },
    bookedFor: (day) => `Reservado para el ${day}`,
  },
  quotes: {
    heading: 'Presupuestos que esperan su respuesta',
    choose: 'aceptado; elija cuándo vamos',
    open: (number, amount) => `Presupuesto ${number}, ${amount}`,
    until: (day) => `válido hasta el ${day}`,
  },
  reports: {
    heading: 'Informes',
    none: 'Todavía no se envió ningún informe.',
    open: (day) => `Visita del ${day}`,
  },
  calendar: {
    heading: 'Calendario',
    text: 'Suscriba esta dirección en su calendario y las visitas aparecen solas. Quien tenga la dirección puede leerlas.',
  },
  ring: {
    heading: 'Llámennos por …',
    lead: '¿Algo anda mal, o quiere preguntar algo? Escríbalo aquí; la oficina lo tiene enseguida en su lista.',
    danger: 'Humo, chispas u olor a gas: aleje a todos, apague solo lo que alcance sin peligro y llame primero a los bomberos.',
    kitchen: 'Cocina',
    unit: 'Qué equipo',
    noUnit: 'Ninguno de estos, o no sé',
    what: 'Qué pasa',
    soon: 'Cuándo',
    urgency: {
      now: 'Los alimentos se calientan, o pronto lo harán',
      today: 'Funciona, pero no como debe: hoy, si se puede',
      week: 'Puede esperar unos días',
      next_visit: 'Basta con la próxima visita',
    },
    name: 'Su nombre',
    phone: 'Teléfono donde lo encontramos',
    send: 'Enviar a la oficina',
    sent: 'Está en la lista de la oficina. Aquí no se puede decir cuándo alguien llama o viene.',
    alsoRing: (phone) =>
      phone
        ? `¿Alimentos en riesgo? Llame también al ${phone}: esta página no despierta a nadie.`
        : '¿Alimentos en riesgo? Llame también al taller: esta página no despierta a nadie.',
    unitGone: 'Ese equipo ya no figura allí. Elija de nuevo.',
  },
  errors: {
    what: 'Diga en pocas palabras de qué se trata.',
    urgency: 'Diga para cuándo.',
    name: 'Escriba su nombre.',
    phone: 'Escriba un número donde lo encontremos.',
    kitchen: 'Elija una cocina.',
    long: 'Es demasiado largo.',
  },
  letter: {
    subject: (shop) => `Su página en ${shop}`,
    text: (holder, what, address, until) =>
      `${holder}:\n\nesta página muestra ${what}: próximas visitas, informes, presupuestos y trabajo pendiente, y desde ella puede pedir que lo llamemos.\n${address}\n\nLa dirección sirve hasta el ${until}. Quien la tenga puede leer la página: no la comparta.`,
    allKitchens: (customer) => `todas las cocinas de ${customer}`,
  },
};
