import type { LookId } from '../inference/next-look';
import type { CondenserUnit } from '../types';

/** What to do for each look, as one sentence to a technician. */
const INSTRUCTION: Record<LookId, string> = {
  coilGrade: 'Shine a lamp through the condenser coil from behind and grade it.',
  fanGrade: 'Look at the condenser fan: turning, right way round, full speed, blade whole.',
  airPathGrade: 'Look at where the condenser’s air goes in and comes out: boxes, cloths, a panel, a filter.',
  evaporatorFanGrade: 'Look at the evaporator fan: turning, full speed, blade free of ice.',
  evaporatorCoilGrade: 'Look at the evaporator coil: dirt between the fins.',
  iceGrade: 'Look at the evaporator for ice: on the coil, in the pan, between the fins.',
  condensingClampK: 'Clamp a bend halfway through the condenser: it shows the true condensing temperature.',
  liquidLineK: 'Clamp the liquid line and read the subcooling.',
  suctionLineK: 'Clamp the suction line and read the superheat.',
  dischargeLineK: 'Clamp the discharge line, a hand’s breadth from the compressor.',
  headPaGauge: 'Read the head pressure.',
  suctionPaGauge: 'Read the suction pressure.',
  airInK: 'Measure the air at the coil face.',
  airAgainK: 'Measure the air at the coil face with another thermometer.',
  headAgainPaGauge: 'Read the head pressure with another gauge.',
  roomAirK: 'Measure the air in the room and compare it with the air at the coil; look for what blocks the outlet.',
  boxK: 'Read the box temperature.',
  offCyclePaGauge:
    'With it off and the coil at air temperature, compare standing pressure with saturation at that air; both gauges must agree.',
  steadyMinutes: 'Note how long it has been running, or wait for 10 to 15 minutes of steady running and read again.',
};

const ICE_MACHINE = 'Read it in the middle of the freeze, five minutes or more after the last harvest.';

export function lookWords(look: LookId, unit: CondenserUnit): string {
  return look === 'steadyMinutes' && unit.kind === 'ice_machine' ? ICE_MACHINE : INSTRUCTION[look];
}
