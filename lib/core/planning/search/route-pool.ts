import type { Model } from '../model/model';
import type { Route } from '../model/route';
import type { Solution } from './solution';

/** Routes met on the way, cheapest of each kind and content: a good start for the bound and for recombining. */
export interface RoutePool {
  collect(solution: Solution): void;
  routes(): Route[];
}

export function routePool(model: Model, most: number): RoutePool {
  const pool = new Map<string, Route>();
  const seen = new WeakSet<Route>();
  return {
    collect(solution) {
      if (pool.size >= most) return;
      for (const route of solution.routes) {
        if (route.jobs.length === 0 || seen.has(route)) continue;
        seen.add(route);
        const content = route.jobs
          .map((job, p) => `${job}.${route.sets[p]}`)
          .sort()
          .join(' ');
        const key = `${model.shifts[route.shift]!.kind}:${content}`;
        const rival = pool.get(key);
        if (!rival || route.cost < rival.cost) pool.set(key, route);
      }
    },
    routes: () => [...pool.values()],
  };
}
