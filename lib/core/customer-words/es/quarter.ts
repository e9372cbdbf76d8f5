import type { QUARTER_EN } from '../en/quarter';

const units = (read: number, of: number) => (read === of ? '' : ` Es de ${read} de ${of} equipos; los demás no se midieron.`);
const visits = (n: number) => (n === 1 ? 'una visita' : `${n} visitas`);

/** The summary of a quarter. */
export const QUARTER_ES: typeof QUARTER_EN = {
  name: 'Resumen del trimestre',
  title: (customer, months) => `${customer}, ${months}`,
  lead: (many, kitchens) =>
    many === 0 ? 'En este trimestre no hubo visitas.' : `Hubo ${visits(many)} ${kitchens === 1 ? 'a su cocina' : `a ${kitchens} cocinas`}.`,
  open: (jobs) => (jobs === 1 ? 'Una cosa necesita reparación; está más abajo.' : `${jobs} cosas necesitan reparación; están más abajo.`),
  nothingOpen: 'No hay trabajo pendiente.',
  costing: (figure, read, of) =>
    `Tal como lo encontramos, la suciedad costaba unos ${figure} de electricidad en 30 días.${units(read, of)}`,
  costingAtMost: (most, read, of) =>
    `Tal como lo encontramos, la suciedad costaba a lo sumo ${most} de electricidad en 30 días, quizá nada.${units(read, of)}`,
  visits: (days) => `${days.length === 1 ? 'Visita' : 'Visitas'}: ${days.join('; ')}.`,
  noVisit: 'Sin visitas en este trimestre.',
  nextVisit: (day) => `La próxima visita está reservada para el ${day}.`,
  finished: (jobs) => (jobs === 1 ? 'Se terminó una reparación.' : `Se terminaron ${jobs} reparaciones.`),
  notReached: (day) => `${day}: no pudimos llegar al equipo.`,
  allSound: 'Todo lo que se revisó estaba en orden.',
  notSeen: 'No se revisó en este trimestre.',
  unitCosting: (day, figure) => `El ${day} la suciedad costaba unos ${figure} de electricidad en 30 días.`,
  unitAtMost: (day, most) => `El ${day} la suciedad costaba a lo sumo ${most} de electricidad en 30 días, quizá nada.`,
  trend: {
    faster: (before, last) =>
      `El condensador se ensucia más rápido que antes: visto a los ${last} días, y a los ${before} la vez anterior.`,
    slower: (before, last) =>
      `El condensador se ensucia más despacio que antes: visto a los ${last} días, y a los ${before} la vez anterior.`,
    same: (before, last) => `El condensador se ensucia como antes: igual a los ${last} días que a los ${before} la vez anterior.`,
    clean: (before, last) => `El condensador se encontró limpio a los ${last} días, como a los ${before} la vez anterior.`,
    cantSay: 'Todavía no se puede decir si el condensador se ensucia más rápido o más despacio que antes.',
  },
  headings: { work: 'Trabajo pendiente', units: 'Equipo por equipo' },
  letter: {
    subject: (customer, months) => `Su refrigeración, ${months}: ${customer}`,
    text: (customer, months, address, until) =>
      `Lo que se encontró y se hizo en las cocinas de ${customer}, ${months}:\n${address}\n\nLa dirección sirve hasta el ${until}. Quien la tenga puede leer el resumen.`,
  },
};
