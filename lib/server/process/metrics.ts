import { Counter, Gauge, Histogram, Registry, collectDefaultMetrics } from 'prom-client';

type Held = { registry: Registry; requests: Histogram; refused: Counter; waiting: Gauge };
// The framework bundles this file more than once; the numbers are one.
const held = globalThis as unknown as { rimebookMetrics?: Held };

function make(): Held {
  const registry = new Registry();
  collectDefaultMetrics({ register: registry });
  return {
    registry,
    requests: new Histogram({
      name: 'rimebook_request_seconds',
      help: 'Requests answered, by method and kind of status.',
      labelNames: ['method', 'status'],
      buckets: [0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10],
      registers: [registry],
    }),
    refused: new Counter({
      name: 'rimebook_sign_in_refused_total',
      help: 'Sign-ins refused, by reason.',
      labelNames: ['why'],
      registers: [registry],
    }),
    waiting: new Gauge({
      name: 'rimebook_on_file',
      help: 'Messages and plans on file, by what they wait for.',
      labelNames: ['what', 'status'],
      registers: [registry],
    }),
  };
}

export const metrics = (): Held => (held.rimebookMetrics ??= make());

const METHODS = new Set(['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'OPTIONS']);

/** Counts a request. Method and status are of closed sets: whoever calls can't make new rows. */
export const answered = (method: string, status: number, ms: number) =>
  metrics().requests.observe({ method: METHODS.has(method) ? method : 'other', status: `${Math.floor(status / 100)}xx` }, ms / 1000);
