import { describe } from 'vitest';
import {
  bubblePressure,
  bubbleTemperature,
  dewPressure,
  dewTemperature,
  glide,
  isFailure,
  liquid,
  midpointTemperature,
  rangeOf,
  REFRIGERANT_IDS,
  REFRIGERANTS,
  safetyOf,
  saturatedLiquid,
  saturatedVapour,
  saturationDome,
  unwrap,
  vapour,
  vapourAtEntropy,
  type Result,
  type State,
} from '@/lib/core/refrigerants';
import { depletesOzone, FILED_REFRIGERANTS, isFiledRefrigerant, safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import { EQUATIONS } from '@/lib/core/refrigerants/data/equations';
import { engineOf, type Engine } from '@/lib/core/refrigerants/engine';
import { componentsOf, exactSaturation } from '@/lib/core/refrigerants/exact';
import { ancillaryValue } from '@/lib/core/refrigerants/models/ancillary';
import { Helmholtz } from '@/lib/core/refrigerants/models/helmholtz';
import { Mixture } from '@/lib/core/refrigerants/models/mixture';
import { flammableCaution, refrigerantId, refrigerantLabel } from '@/lib/core/refrigerants/naming';
import { atPressure, atTemperature } from '@/lib/core/refrigerants/saturation-look-up';
import { boundaryPoint, firstGuess, type Branch } from '@/lib/core/refrigerants/solvers/bubble-dew';
import { densityFrom, gasDensity } from '@/lib/core/refrigerants/solvers/density';
import { temperatureAtEntropy } from '@/lib/core/refrigerants/solvers/entropy';
import { pureSaturation } from '@/lib/core/refrigerants/solvers/pure-saturation';
import { Tracer } from '@/lib/core/refrigerants/solvers/tracer';
import { keptAnswers } from '../../support/kept-answers';

// A regression, nothing more: see tests/support/kept-answers.ts. Anew by `node scripts/keep-answers.mjs refrigerants`.

const kind = (wanted: string) => REFRIGERANT_IDS.filter((id) => REFRIGERANTS[id]?.kind === wanted);
const named = <T>(ids: readonly string[], of: (id: string) => T) => Object.fromEntries(ids.map((id) => [id, of(id)]));
function engine(id: string): Engine {
  const found = engineOf(id);
  if (!found) throw new Error(id);
  return found;
}
function equation(id: string) {
  const found = EQUATIONS[id];
  if (!found) throw new Error(id);
  return found;
}
const said = <T>(x: Result<T>) => (isFailure(x) ? [x.status, x.message] : x);
const numbers = (s: State) => [s.T, s.p, s.rho, s.h, s.s, s.cp, s.quality ?? null];
const stateOf = (x: Result<State>) => (isFailure(x) ? [x.status, x.message] : numbers(x));

/** What a density search of this fluid answers from near, from far, and where there is nothing to find. */
function densities(id: string) {
  const { liquid: wet, vapour: gas, curves, limits } = engine(id);
  const T = 0.78 * limits.criticalT;
  const [p, rhoL] = [curves.bubblePressure(T), curves.liquidDensity(T)];
  return [
    ...[1, 0.9, 1.3, 3, 50].map((far) => densityFrom(wet, T, 1.4 * p, far * rhoL)),
    ...[0.1, 0.6, 0.95].map((share) => gasDensity(gas, T, share * curves.dewPressure(T))),
    gasDensity(gas, 1.01 * limits.criticalT, 0.97 * limits.dewP[1]),
    densityFrom(gas, T, curves.dewPressure(T), 0.4 * rhoL),
    densityFrom(gas, T, NaN, 10),
    gasDensity(gas, T, 3 * p),
  ];
}

/** All that an equation or a table gives, thin to dense; a table only as far as it holds. */
const evaluated = (model: Helmholtz) =>
  [230, 285, 340].flatMap((T) => {
    const most = Math.min(2.4, model.highestDensity(T) / model.reducingRho);
    const r = model.residual;
    return [0, 0.01, 0.3, 0.97].map((share) => {
      const rho = share * most * model.reducingRho;
      model.at(T, rho);
      const all = [r.a00, r.a01, r.a02, r.a10, r.a20, r.a11];
      if (share === 0) return [...all, r.virial(), r.highestDelta()];
      return [...all, model.enthalpy(T), model.entropy(rho), model.isochoricHeat(), model.isobaricHeat(), model.thermalPressure(rho)];
    });
  });

const boundary = (id: string) => {
  const { components, z } = componentsOf(id);
  const mixture = new Mixture(components);
  const point = (branch: Branch, T: number, from = firstGuess(mixture, z, branch, T)) => {
    const { status, p, rhoL, rhoV, other, iterations } = boundaryPoint(mixture, z, branch, T, from);
    return status === 'converged' ? [p, rhoL, rhoV, [...other], iterations] : [status, iterations];
  };
  const good = firstGuess(mixture, z, 'dew', 280);
  const same = { ...good, rhoL: good.rhoV };
  return {
    bubble: [225, 280, 320, 336].map((T) => point('bubble', T)),
    dew: [225, 280, 320, 336].map((T) => point('dew', T)),
    guess: [225, 280, 345].flatMap((T) => [firstGuess(mixture, z, 'bubble', T), firstGuess(mixture, z, 'dew', T)]),
    nowhere: [point('dew', 400), point('dew', 280, same), point('bubble', 280, { ...good, rhoL: NaN }), point('bubble', 280, { ...good, rhoV: 3 * good.rhoV })], // prettier-ignore
  };
};

const saturation = (id: string) => {
  const eq = equation(id);
  const model = new Helmholtz(eq);
  const at = (share: number, l = 1, v = 1) => {
    const T = share * eq.critical.T;
    const starts = [eq.ancillaries.rhoL, eq.ancillaries.rhoV].map((a) => ancillaryValue(a, T) * eq.molarMass);
    const { status, p, rhoL, rhoV, iterations } = pureSaturation(model, T, l * (starts[0] ?? NaN), v * (starts[1] ?? NaN));
    return status === 'converged' ? [p, rhoL, rhoV, iterations] : [status, iterations];
  };
  return [at(0.62), at(0.8), at(0.95), at(0.999), at(0.8, 1.1, 0.8), at(0.8, 0.9, 1.5), at(0.8, 0.1, 0.1), at(0.8, 1, NaN), at(1.05)];
};

/** A solver of the curve value = e^(k·T) up to a fold at 320, with each call written down. */
function traced(k: number, refuses: (T: number, start: number) => boolean = () => false) {
  const calls: number[] = [];
  const tracer = new Tracer(
    (T, start) => {
      calls.push(T);
      return T > 320 || refuses(T, start[0] ?? NaN) ? undefined : Float64Array.of(Math.exp(k * (T - 300)) + 1e-3 * (T - 300) ** 2, 2);
    },
    { T: 300, values: Float64Array.of(1, 2) },
  );
  return { tracer, calls };
}
const followed = (k: number, to: readonly number[], refuses?: (T: number, start: number) => boolean) => {
  const { tracer, calls } = traced(k, refuses);
  return [to.map((T) => tracer.at(T)?.[0] ?? null), [...calls]];
};
const topmost = (k: number, resolution: number) => {
  const { tracer, calls } = traced(k);
  const top = tracer.highest(resolution);
  return [top.T, ...top.values, calls];
};

const entropies = (id: string) => {
  const { curves, vapour: model, limits } = engine(id);
  return [0.66, 0.8, 0.93].flatMap((share) => {
    const dew = curves.saturatedVapour(share * limits.criticalT);
    return [0, 5, 60, 250, 1500, NaN].map((more) => {
      const end = temperatureAtEntropy(model, dew.p, dew.s + more, dew);
      return end ? [end.T, end.rho, end.iterations] : null;
    });
  });
};

const exact = (id: string) => {
  const { bubble, dew, critical, anchor } = exactSaturation(id);
  return { critical, anchor, at: [230, 300, critical.T - 3, critical.T + 5].map((T) => [bubble(T), dew(T)].map((b) => (b ? [b.p, b.rho] : null))) }; // prettier-ignore
};

const wetEnds = (id: string) => {
  const { curves } = engine(id);
  const [dew, bubble] = [curves.saturatedVapour(300), curves.saturatedLiquid(300)];
  return [0.999, 0.9, 0.81, 0.79, 0.2].map((x) => stateOf(vapourAtEntropy(id, { p: dew.p, s: x * dew.s + (1 - x) * bubble.s })));
};

/** Every way to ask wrongly, and what is said. */
const faults = (id: string) => {
  const { limits } = engine(id);
  const s = engine(id).curves.saturatedVapour(300).s;
  return [
    ...[bubblePressure, dewPressure, saturatedLiquid, saturatedVapour].flatMap((f) => [said(f(id, 90)), said(f(id, 600))]),
    ...[bubbleTemperature, dewTemperature, glide, midpointTemperature].flatMap((f) => [said(f(id, 1)), said(f(id, 2e7))]),
    ...[{ T: 90, p: 1e5 }, { T: 900, p: 1e5 }, { T: 300, p: 0 }, { T: 600, p: 2e7 }, { T: 260, p: 3e6 }, { T: limits.maxT, p: 1e5 }].map((at) => stateOf(vapour(id, at))), // prettier-ignore
    ...[{ T: 90, p: 1e6 }, { T: 600, p: 1e6 }, { T: 260, p: 1e12 }, { T: 260, p: 2 }, { T: 260, p: limits.maxP }].map((at) => stateOf(liquid(id, at))), // prettier-ignore
    ...[
      { p: 1, s },
      { p: 2e7, s },
      { p: 6e5, s: s + 3000 },
      { p: 6e5, s: s - 900 },
    ].map((at) => stateOf(vapourAtEntropy(id, at))),
  ];
};

const WRITTEN = ['R-404A', 'r 404 a', '448A', 'carbon dioxide', 'Propane', '1234yf', 'R1234ZE(E)', 'unknown', 'not known', 'Not-Known', 'R', '404', 'R-502', 'r438a', '', 'x']; // prettier-ignore

describe('kept answers of refrigerants', () => {
  keptAnswers(import.meta.dirname, {
    'pure saturation, from good and poor starts': () => named(kind('pure'), saturation),
    'bubble and dew of mixtures': () => named(['R454C', 'R448A', 'R455A', 'R515B'], boundary),
    'density at a pressure': () => named(['R134a', 'R744', 'R290', 'R404A', 'R454C', 'R448A'], densities),
    'vapour of an entropy': () => named(['R134a', 'R600a', 'R744', 'R410A', 'R449A'], entropies),
    'the whole solution': () => named(['R290', 'R407C', 'R513A'], exact),
    'a curve followed': () => [
      followed(0.02, [301, 310, 280, 305, 319.99]),
      followed(-0.4, [330, 309, 290]),
      followed(0.3, [312, 260]),
      followed(0.02, [315, 300.5], (T) => T > 304 && T < 304.1),
      followed(0.05, [318], (_, start) => start > 1.3),
      followed(0.02, [340]),
      ...[0.5, 1e-3].map((resolution) => topmost(0.05, resolution)),
    ],
    equations: () => named([...kind('pure'), ...kind('pseudo_pure')], (id) => evaluated(new Helmholtz(equation(id)))),
    'tables of blends': () => named(kind('blend'), (id) => [evaluated(engine(id).vapour), evaluated(engine(id).liquid)]),
    'a mixture as one fluid': () => named(['R454A', 'R448A', 'R455A', 'R407F'], (id) => {
      const { components, z } = componentsOf(id);
      const mixture = new Mixture(components);
      mixture.reducing.setComposition(z);
      const p = [0.1, 2.2].map((delta) => mixture.evaluate(310, delta / mixture.reducing.v, z));
      return { z, p, fugacity: mixture.fugacity, reducing: [mixture.reducing.T, mixture.reducing.v, ...mixture.reducing.nT, ...mixture.reducing.nV], fluid: evaluated(new Helmholtz(mixture.atComposition(z))) }; // prettier-ignore
    }), // prettier-ignore
    'saturation as served': () => named(REFRIGERANT_IDS, (id) => [240, 273.15, 300].map((T) => [numbers(unwrap(saturatedLiquid(id, T))), numbers(unwrap(saturatedVapour(id, T))), ...[glide, midpointTemperature].map((f) => f(id, unwrap(dewPressure(id, T))))])), // prettier-ignore
    'where each is served': () => named(REFRIGERANT_IDS, rangeOf),
    'the end of a compression, wet': () => named(['R600a', 'R134a', 'R448A', 'R404A', 'R455A'], wetEnds),
    'what is said where there is no number': () => ({ ...named(['R134a', 'R404A', 'R448A'], faults), R999: [bubblePressure('R999', 300), rangeOf('R999')] }), // prettier-ignore
    'the dome': () => named(['R134a', 'R448A'], (id) => {
      const { liquid: rising, vapour: falling } = unwrap(saturationDome(id, 240, 5));
      return [rising.map(numbers), falling.map(numbers), unwrap(saturationDome(id, 240)).liquid.length];
    }), // prettier-ignore
    'one line of the chart': () => [atPressure('R448A', 1e6, 0), atPressure('R448A', 1e6, 1500), atPressure('R134a', 9e6, 0), atPressure('R134a', -101_000, 0), atTemperature('R448A', 290, 800), atTemperature('R448A', 500, 800)], // prettier-ignore
    'the catalogue': () => named(FILED_REFRIGERANTS.map((r) => r.id), (id) => [REFRIGERANTS[id] ?? null, FILED_REFRIGERANTS.find((r) => r.id === id), safetyClassOf(id), depletesOzone(id), refrigerantLabel(id)]), // prettier-ignore
    safety: () => named(['R134a', 'R290', 'R152a', 'R454C', 'R744', 'R502', 'R999'], (id) => [safetyOf(id) ?? null, flammableCaution(id)]),
    'as people write it': () => WRITTEN.map((text) => [text, refrigerantId(text), isFiledRefrigerant(text), refrigerantLabel(text)]),
  });
});
