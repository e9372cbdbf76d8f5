/** What trips a unit on high pressure. Only the first speaks of fouling. */
export const TRIP_CAUSES = ['coil', 'fan', 'air', 'charge', 'cutout'] as const;
export type TripCause = (typeof TRIP_CAUSES)[number];

export const TRIP_CAUSE_LABEL: Record<TripCause, string> = {
  coil: 'Dirty coil',
  fan: 'Condenser fan',
  air: 'Air shut in or too hot',
  charge: 'Charge, or air in the system',
  cutout: 'The cut-out itself',
};
