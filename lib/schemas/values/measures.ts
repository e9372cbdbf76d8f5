import { LIMITS } from '../../core/equipment/limits';
import { Measured } from './fields';

export const Altitude = Measured(LIMITS.altitudeM, 'length');
export const HotDayAir = Measured(LIMITS.hotDayAirK, 'temperature');
