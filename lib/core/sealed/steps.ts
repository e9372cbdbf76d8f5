/**
 * The steps of work on a sealed circuit, in order, each with its caution once. Common practice of the trade, from memory,
 * and never more than a reminder: the maker's instructions, local code and licensed practice come first.
 */

export const SEALED_STEPS = [
  'isolate',
  'recover',
  'open',
  'braze',
  'drier',
  'pressure_test',
  'evacuate',
  'charge',
  'running_check',
] as const;
export type SealedStep = (typeof SEALED_STEPS)[number];

/** Steps that touch refrigerant: nobody without a certificate does them, unless somebody answers for it by name. */
export const NEEDS_CERTIFICATE: Record<SealedStep, boolean> = {
  isolate: false,
  recover: true,
  open: true,
  braze: false,
  drier: true,
  pressure_test: true,
  evacuate: true,
  charge: true,
  running_check: false,
};

export type SealedContext = {
  /** ASHRAE 34 group burns: A2L, A2 or A3; unknown counts as burning. */
  flammable: boolean;
  /** */
  carbonDioxide: boolean;
};

type StepText = { title: string; what: string; caution: (c: SealedContext) => string };

const plain = (text: string) => () => text;

export const SEALED_STEP_TEXT: Record<SealedStep, StepText> = {
  isolate: {
    title: 'Isolate and make ready',
    what: 'Power off, locked and proven dead. Valves shut where there are any.',
    caution: ({ flammable, carbonDioxide }) =>
      [
        'Lock out and tag; prove dead before hands go in. Hard-wired units have no plug.',
        flammable
          ? 'The charge burns or may: detector on, room ventilated, no flame, spark or switching within the area your code asks for, before anything is opened.'
          : '',
        carbonDioxide ? 'CO2 stands under high pressure when stopped, and displaces air: ventilate, gauges and hoses rated for it.' : '',
      ]
        .filter(Boolean)
        .join(' '),
  },
  recover: {
    title: 'Recover',
    what: 'Which cylinder, weight before and after, down to what level.',
    caution: ({ flammable }) =>
      `Eye protection and gloves. Never fill a cylinder past four fifths of its volume${flammable ? '; machine and cylinder rated for flammable gas' : ''}. Venting is forbidden where the law says so.`,
  },
  open: {
    title: 'Open the circuit',
    what: 'Cut, do not unsweat: oil and gas left inside can burn.',
    caution: ({ flammable }) =>
      flammable
        ? 'Purge with nitrogen first; a tube cutter, never a torch, on a circuit that held flammable gas.'
        : 'Pressure is nil at the gauge on both sides before you cut.',
  },
  braze: {
    title: 'Braze with nitrogen flowing',
    what: 'Dry nitrogen trickles through while the joint is hot; filler by joint.',
    caution: plain(
      'Hot work: permit where asked, extinguisher at hand, wet rag on valves, someone watches for half an hour after. Ventilate: fumes of flux and old refrigerant are poisonous.',
    ),
  },
  drier: {
    title: 'Fit the new drier',
    what: 'Last before closing; note its size, and the capillary’s bore and length where it was changed.',
    caution: plain('Caps stay on until the joint is ready: it takes up the room’s moisture within minutes.'),
  },
  pressure_test: {
    title: 'Test with nitrogen',
    what: 'Pressure and tube temperature at the start, and again after at least 15 minutes.',
    caution: plain(
      'Dry nitrogen through a regulator and a relief valve, never oxygen or air; never above the test pressure on the plate, and the low side’s where both are joined.',
    ),
  },
  evacuate: {
    title: 'Evacuate and watch the vacuum',
    what: 'To 500 microns or the maker’s figure, pump shut off, then read every minute.',
    caution: plain('Never run the compressor in a vacuum.'),
  },
  charge: {
    title: 'Charge by weight',
    what: 'Plate plus what was changed; cylinder before and after on the scale.',
    caution: ({ flammable }) =>
      flammable
        ? 'Never above the plate’s limit for flammable gas; no ignition source until the joints are proven tight and the covers are on.'
        : 'Liquid into a running suction line only throttled: it can break the compressor.',
  },
  running_check: {
    title: 'Run and read',
    what: 'After an hour of steady running: the same readings as any visit. It becomes the unit’s new clean baseline.',
    caution: plain('Hot lines and moving parts; covers back on before you leave it.'),
  },
};

/** Filler by what is joined: common practice; the filler's maker says the rest. */
export const FILLERS = ['copper_copper', 'copper_steel', 'copper_brass', 'other'] as const;
export type FillerJoint = (typeof FILLERS)[number];
export const FILLER_FOR: Record<FillerJoint, string> = {
  copper_copper: 'Copper–phosphorus (BCuP), no flux',
  copper_steel: 'Silver (BAg) with flux: phosphorus makes steel brittle',
  copper_brass: 'Silver (BAg) with flux, or BCuP with flux',
  other: 'As the maker says',
};
