/** A way to fit an emergency in, in the shop's names, as it is shown and taken. Times are epoch milliseconds. */
export interface SqueezeOffer {
  readonly technicianId: string;
  readonly technician: string;
  readonly startMs: number;
  readonly endMs: number;
  readonly waitMinutes: number;
  /** More driving than without the emergency, all rounds together; negative if less. */
  readonly extraDriveMinutes: number;
  /** How long the day runs past the shift. */
  readonly overtimeMinutes: number;
  readonly onCall: boolean;
  readonly phone: string;
  readonly moves: readonly OfferedMove[];
}

export interface OfferedMove {
  readonly visitId: string;
  readonly version: number;
  readonly kitchen: string;
  readonly customer: string;
  readonly timeZone: string;
  /** The kitchen has confirmed the time it would lose. */
  readonly confirmed: boolean;
  readonly fromTechnician: string;
  readonly technicianId: string;
  readonly technician: string;
  readonly wasMs: number;
  readonly startMs: number;
  readonly endMs: number;
}

export interface SqueezeAnswer {
  readonly offers: readonly SqueezeOffer[];
  readonly timeZone: string;
  /** Whom to ring where the soonest offer is far off: not at work and not on call then, but able to do it. */
  readonly couldAsk: readonly { readonly name: string; readonly phone: string }[];
  /** What else to know: no coordinates, nobody with the skill. */
  readonly notes: readonly string[];
}
