/**
 * What a fouled coil costs: from what a technician could measure to conductance and cooling lost, energy, trip
 * temperature and the likely causes, each with its band. SI throughout.
 *
 * This entry brings the data of every refrigerant. A tablet imports `./api` instead and loads its fleet's own.
 */
import '../refrigerants/all';

export * from './api';
