import type { REPORT_EN } from '../en/report';

// Apart from the report: a tablet carries these, and not the rest of it.

/** What was found, in a sentence. */
export const FOUND_ES: (typeof REPORT_EN)['found'] = {
  coil: {
    bare: 'El condensador estaba limpio.',
    filmed: 'El condensador tenía una película de suciedad.',
    furred: 'Había pelusa o grasa en el condensador; el aire aún pasaba.',
    matted: 'El condensador estaba cubierto: el aire pasaba solo por partes.',
    packed: 'El condensador estaba tapado: no pasaba el aire.',
  },
  condenser_fan: {
    sound: 'El ventilador del condensador funciona bien.',
    worn: 'El ventilador del condensador está gastado.',
    failed: 'El ventilador del condensador falló.',
  },
  air_path: {
    open: 'El aire llegaba bien al condensador.',
    narrowed: 'Algo le quitaba parte del aire al condensador.',
    blocked: 'El condensador estaba sin paso de aire.',
  },
  ice: {
    dry: 'No hay hielo en el lado frío.',
    even_frost: 'Escarcha pareja en el evaporador, como debe ser entre descongelaciones.',
    part_iced: 'Hielo en parte del evaporador o en su bandeja.',
    bridged: 'El hielo cerraba buena parte del evaporador.',
    block: 'Hielo macizo en la bandeja o en el evaporador.',
  },
  evaporator_coil: {
    clean: 'El evaporador estaba limpio.',
    dusty: 'Había polvo en el evaporador.',
    clogged: 'El evaporador estaba tapado en parte por la suciedad.',
    choked: 'El evaporador estaba tapado por la suciedad.',
  },
  evaporator_fan: {
    sound: 'El ventilador de la cámara funciona bien.',
    worn: 'El ventilador de la cámara está gastado.',
    failed: 'El ventilador de la cámara falló.',
  },
  drain: {
    runs: 'El desagüe corre bien.',
    slow: 'El desagüe corre despacio.',
    blocked: 'El desagüe estaba tapado.',
    frozen: 'El desagüe estaba congelado.',
    broken: 'El desagüe, su bandeja o su calefactor está roto.',
  },
  gasket: {
    sound: 'Los empaques de las puertas sellan.',
    worn: 'Los empaques de las puertas están gastados.',
    failed: 'Un empaque de puerta no sella.',
  },
  scale: {
    clean: 'La placa de hielo estaba sin sarro.',
    filmed: 'Había una película de sarro en la placa de hielo.',
    crusted: 'Había costras de sarro en la placa de hielo.',
    caked: 'La placa de hielo estaba cubierta de sarro.',
  },
  float: {
    sound: 'El flotador y la entrada de agua funcionan bien.',
    worn: 'El flotador o la entrada de agua está gastado.',
    failed: 'El flotador o la entrada de agua falló.',
  },
};

export const LEFT_STILL_ES: (typeof REPORT_EN)['leftStill'] = (grade) => `Después del trabajo: ${grade}`;
