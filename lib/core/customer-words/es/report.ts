import { TASK_KEYS, TASK_KIND_INFO } from '../../tasks/kinds';
import type { REPORT_EN } from '../en/report';
import { FOUND_ES, LEFT_STILL_ES } from './found';

/** The report of a visit. */
export const REPORT_ES: typeof REPORT_EN = {
  report: 'Informe de servicio',
  of: (kitchen, day) => `${kitchen}, ${day}`,
  cameFrom: (technician, shop, from, to) =>
    `${technician}, de ${shop}, estuvo con ustedes ${to ? `de ${from} a ${to}` : `desde las ${from}`}.`,
  lookedAfter: (units) => (units === 1 ? 'Se atendió un equipo.' : `Se atendieron ${units} equipos.`),
  allWell: 'No se encontró nada que no pueda esperar a la próxima visita.',
  openJobs: (jobs) =>
    jobs === 1 ? 'Una cosa necesita reparación; está más abajo.' : `${jobs} cosas necesitan reparación; están más abajo.`,
  bands: 'Donde hay dos cifras entre paréntesis, la verdadera está entre ellas cuatro veces de cada cinco.',
  foodSaid: 'Se habló de la temperatura de los alimentos; véase más abajo.',
  found: FOUND_ES,
  notLooked: (aspect, why) => `${aspect}: no se revisó (${why}).`,
  aspect: {
    coil: 'Condensador',
    condenser_fan: 'Ventilador del condensador',
    air_path: 'Paso de aire del condensador',
    ice: 'Hielo',
    evaporator_coil: 'Evaporador',
    evaporator_fan: 'Ventilador de la cámara',
    drain: 'Desagüe',
    gasket: 'Empaques de las puertas',
    scale: 'Sarro',
    float: 'Flotador y entrada de agua',
  },
  task: Object.fromEntries(TASK_KEYS.map((key) => [key, TASK_KIND_INFO[key].spanish])),
  leftClean: 'Quedó limpio.',
  leftStill: LEFT_STILL_ES,
  done: (tasks) => `Hecho: ${tasks.join(', ')}.`,
  notDone: (task, why) => `No se hizo: ${task}${why ? ` (${why})` : ''}.`,
  noReach: (why) => `No pudimos llegar al equipo${why ? `: ${why}` : ''}.`,
  gone: 'El equipo ya no está.',
  overAir: (before, after) =>
    before && after
      ? `El condensador estaba ${before} más caliente que el aire que lo enfría, y ${after} después de limpiar: cuanto menos, menos esfuerzo.`
      : before
        ? `El condensador estaba ${before} más caliente que el aire que lo enfría.`
        : `Después del trabajo el condensador estaba ${after} más caliente que el aire que lo enfría.`,
  costing: (figure) => `La suciedad costaba unos ${figure} de electricidad en 30 días.`,
  costingLittle: (most) => `No se vio pérdida por suciedad; a lo sumo ${most} de electricidad en 30 días.`,
  next: (task, day) => `${task}: la próxima vez el ${day}`,
  every: (weeks) => (weeks === 1 ? 'cada semana' : `cada ${weeks} semanas`),
  sooner: (from) => `, antes que las ${from} semanas de hasta ahora, por lo que se encontró.`,
  later: (from) => `, después de las ${from} semanas de hasta ahora, porque se mantiene limpio más tiempo.`,
  asBefore: ', como hasta ahora.',
  job: { now: 'Ahora: hay alimentos en riesgo', today: 'Hoy', week: 'Dentro de la semana', next_visit: 'En la próxima visita' },
  box: (box, who, when) => `La cámara estaba a ${box}; se avisó a ${who} a las ${when}.`,
  boxCaution: 'Si los alimentos aún se pueden servir lo deciden la cocina y su autoridad sanitaria.',
  parts: (parts) => `Repuestos usados: ${parts.join(', ')}.`,
  signed: (who) => `Firmado por ${who}.`,
  nobody: 'No había nadie para firmar.',
  headings: {
    units: 'Lo que se encontró y se hizo',
    work: 'Trabajo pendiente',
    food: 'Temperatura de los alimentos',
    next: 'Cuándo volvemos',
    before: 'Antes',
    after: 'Después',
  },
  page: { pdf: 'En PDF', questions: (phone) => (phone ? `¿Preguntas? ${phone}` : '¿Preguntas? Llame al taller.') },
  letter: {
    subject: (kitchen, day) => `Informe de servicio: ${kitchen}, ${day}`,
    text: (kitchen, day, address, until) =>
      `El informe de nuestra visita a ${kitchen} el ${day}, con fotos:\n${address}\n\nLa dirección sirve hasta el ${until}. Quien la tenga puede leer el informe.`,
  },
  paperLetters: 'Parte está escrita con letras que este papel no tiene: figuran como [?]. La página de su enlace las muestra.',
  deadLink: {
    title: 'Este enlace no abre',
    text: 'Es demasiado viejo, fue anulado o se pidió demasiadas veces desde aquí. Espere un cuarto de hora o pida otro al taller.',
  },
};
