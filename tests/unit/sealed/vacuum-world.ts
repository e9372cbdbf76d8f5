import type { VacuumReading } from '@/lib/core/sealed';
import type { RandomStream } from '@/lib/core/numerics/random';

/**
 * A circuit that is pumped down, shut off and watched: what judges the fit of a decay, and shares no equation with it.
 * Gas by amounts in a volume: air through an orifice; water from a film by its vapour pressure, cooled by what it
 * evaporates and gone when it is used up; refrigerant out of oil by diffusion through a layer; a room whose
 * temperature drifts; a pump of finite speed. Nothing of it levels off or rises by a formula of time.
 */

const PA_PER_MICRON = 101325 / 760_000;
/** J/kg, water at 20 °C, and kg/mol. */
const LATENT = 2.45e6;
const WATER_KG = 0.018015;
const GAS = 8.314;
const STEP_S = 2;
const LAYERS = 8;

export type Circuit = {
  /** Air that comes in, microns a minute at 20 °C. */
  leak: number;
  /** Water in the film when pumping begins, and what all of it would make of the volume, microns. */
  water: number;
  /** Seconds in which the film would fill the volume, and in which it takes the tube's temperature. */
  filmS: number;
  filmHeatS: number;
  /** Refrigerant in the oil when pumping begins, the same way; seconds to cross the layer. */
  oil: number;
  oilS: number;
  volumeL: number;
  /** Of the pump through its hose, L/s. */
  pump: number;
  /** Pumped until the gauge shows this, or so many minutes. */
  until: number;
  pumpMinutes: number;
  /** Half the swing of the room's temperature, K, and its period in seconds. */
  swing: number;
  periodS: number;
};

export const drawCircuit = (random: RandomStream, over: Partial<Circuit>): Circuit => {
  const log = (lo: number, hi: number) => Math.exp(random.between(Math.log(lo), Math.log(hi)));
  return {
    leak: 0,
    water: log(5, 150),
    filmS: log(60, 1800),
    filmHeatS: log(20, 200),
    oil: log(20, 300),
    oilS: log(120, 3600),
    volumeL: log(1, 10),
    pump: log(0.02, 0.15),
    until: random.between(150, 350),
    pumpMinutes: random.between(20, 60),
    swing: random.between(0, 1.5),
    periodS: random.between(900, 7200),
    ...over,
  };
};

/** Vapour pressure over water, or over ice below freezing, Pa (Magnus form, WMO Guide to Instruments, annex 4.B). */
const saturation = (celsius: number) =>
  celsius >= 0 ? 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius)) : 611.2 * Math.exp((22.46 * celsius) / (272.62 + celsius));

/** Runs it; `leaks: false` stops the air, to see where it levels off. */
class Running {
  private s = 0;
  // Amounts as microns in the volume at 20 °C.
  private air = 5000;
  private vapour = 0;
  private gas = 0;
  private film: number;
  private filmC = 20;
  private readonly oil: number[];

  constructor(private readonly c: Circuit) {
    this.film = c.water;
    this.oil = Array.from({ length: LAYERS }, () => c.oil);
  }

  /** The same circuit as it stands now, to go on with apart. */
  fork(): Running {
    const other = new Running(this.c);
    Object.assign(other, { s: this.s, air: this.air, vapour: this.vapour, gas: this.gas, film: this.film, filmC: this.filmC });
    other.oil.splice(0, LAYERS, ...this.oil);
    return other;
  }

  private room() {
    return 20 + this.c.swing * Math.sin((2 * Math.PI * this.s) / this.c.periodS);
  }

  microns() {
    return ((this.air + this.vapour + this.gas) * (273.15 + this.room())) / 293.15;
  }

  step(pumping: boolean, leaks = true) {
    const { c } = this;
    if (leaks) this.air += (c.leak / 60) * STEP_S;
    this.evaporate();
    this.outOfOil();
    if (pumping) {
      const kept = Math.exp((-c.pump / c.volumeL) * STEP_S);
      this.air *= kept;
      this.vapour *= kept;
      this.gas *= kept;
    }
    this.s += STEP_S;
  }

  private evaporate() {
    const { c } = this;
    const over = saturation(this.filmC) / PA_PER_MICRON - this.vapour;
    const flux = Math.max(-this.vapour, Math.min(this.film, (over / c.filmS) * STEP_S * Math.min(1, this.film / 20)));
    this.film -= flux;
    this.vapour += flux;
    // What evaporates takes its heat from the film and a few grams of tube beside it.
    const kg = (flux * PA_PER_MICRON * (c.volumeL / 1000) * WATER_KG) / (GAS * 293.15);
    this.filmC += (-kg * LATENT) / 10 + ((this.room() - this.filmC) / c.filmHeatS) * STEP_S;
  }

  private outOfOil() {
    const rate = (LAYERS * LAYERS * STEP_S) / this.c.oilS;
    const parts = Math.max(1, Math.ceil(rate * 4));
    for (let part = 0; part < parts; part++) {
      const flow = this.oil.map((x, i) => (rate / parts) * (x - (this.oil[i + 1] ?? 0.02 * this.gas)) * (i === LAYERS - 1 ? 2 : 1));
      for (let i = 0; i < LAYERS; i++) this.oil[i] = (this.oil[i] ?? 0) - (flow[i] ?? 0) + (flow[i - 1] ?? 0);
      this.gas = Math.max(0, this.gas + (flow[LAYERS - 1] ?? 0) / LAYERS);
    }
  }
}

/** What the gauge shows each minute after the pump was shut off, and what is true of the circuit. */
export function watch(c: Circuit, minutes: number, random: RandomStream): { readings: VacuumReading[]; level: number } {
  const run = new Running(c);
  const gain = 1 + random.normal(0, 0.05);
  const seen = () => {
    const raw = run.microns() * gain * (1 + random.normal(0, 0.015)) + random.normal(0, 3);
    const division = raw < 400 ? 1 : raw < 2000 ? 10 : 100;
    return Math.max(1, Math.round(raw / division) * division);
  };
  for (let s = 0; s < c.pumpMinutes * 60 && (s % 60 !== 0 || seen() > c.until); s += STEP_S) run.step(true);
  const still = run.fork();
  const readings: VacuumReading[] = [];
  for (let s = 0; s <= minutes * 60; s += STEP_S) {
    if (s % 60 === 0) readings.push({ minutes: s / 60, microns: seen() });
    run.step(false);
  }
  return { readings, level: levelOf(still) };
}

/** Where it would stand six hours later if no air came in, microns. */
function levelOf(run: Running): number {
  for (let s = 0; s < 6 * 3600; s += STEP_S) run.step(false, false);
  return run.microns();
}
