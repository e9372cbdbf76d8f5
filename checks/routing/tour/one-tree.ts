/** The best one-tree found: a lower bound on any tour, and the node weights that prove it. */
export interface OneTreeBound {
  readonly bound: number;
  readonly weights: Float64Array;
}

interface OneTree {
  readonly cost: number;
  readonly degree: Int32Array;
  /** Tree edges among the places other than 0, as parent links from a root. */
  readonly parent: Int32Array;
  /** The two places joined to place 0. */
  readonly ends: readonly [number, number];
}

/**
 * Held–Karp bound for a symmetric tour by subgradient ascent over one-trees (Held & Karp
 * 1970, 1971). Any weights give a valid bound; `rounds` only decides how tight it gets.
 * `target` is the cost of a known tour and sets the step length.
 */
export function oneTreeBound(matrix: Float64Array, n: number, target: number, rounds = 40 * n + 400): OneTreeBound {
  const weights = new Float64Array(n);
  let best: OneTreeBound = { bound: -Infinity, weights: weights.slice() };
  if (n < 3) return { bound: n === 2 ? matrix[1]! + matrix[n]! : 0, weights };
  let step = 2;
  let since = 0;
  for (let round = 0; round < rounds && step > 1e-4; round++) {
    const tree = oneTree(matrix, n, weights);
    let bound = tree.cost;
    let off = 0;
    for (let i = 0; i < n; i++) {
      bound -= 2 * weights[i]!;
      off += (tree.degree[i]! - 2) ** 2;
    }
    if (bound > best.bound + 1e-9) {
      best = { bound, weights: weights.slice() };
      since = 0;
    } else if (++since > 20) {
      step /= 1.5;
      since = 0;
    }
    if (off === 0) break; // the one-tree is a tour
    const length = (step * Math.max(target - bound, target * 1e-4)) / off;
    for (let i = 0; i < n; i++) weights[i]! += length * (tree.degree[i]! - 2);
  }
  return best;
}

function oneTree(matrix: Float64Array, n: number, weights: Float64Array): OneTree {
  const cost = (i: number, j: number): number => matrix[i * n + j]! + weights[i]! + weights[j]!;
  const degree = new Int32Array(n);
  const parent = new Int32Array(n).fill(-1);
  const near = new Float64Array(n).fill(Infinity);
  const inTree = new Uint8Array(n);
  let total = 0;
  let added = 1;
  inTree[1] = 1;
  for (let j = 2; j < n; j++) [near[j], parent[j]] = [cost(1, j), 1];
  for (let count = 2; count < n; count++) {
    added = -1;
    for (let j = 2; j < n; j++) if (inTree[j] === 0 && (added < 0 || near[j]! < near[added]!)) added = j;
    inTree[added] = 1;
    total += near[added]!;
    degree[added]!++;
    degree[parent[added]!]!++;
    for (let j = 2; j < n; j++) {
      const via = cost(added, j);
      if (inTree[j] === 0 && via < near[j]!) [near[j], parent[j]] = [via, added];
    }
  }
  let a = -1;
  let b = -1;
  for (let j = 1; j < n; j++) {
    if (a < 0 || cost(0, j) < cost(0, a)) [a, b] = [j, a];
    else if (b < 0 || cost(0, j) < cost(0, b)) b = j;
  }
  total += cost(0, a) + cost(0, b);
  degree[0] = 2;
  degree[a]!++;
  degree[b]!++;
  return { cost: total, degree, parent, ends: [a, b] };
}

/**
 * Edges that a tour of cost up to `limit` may use: forcing any other into the one-tree
 * lifts the bound above the limit.
 */
export function usableEdges(matrix: Float64Array, n: number, proof: OneTreeBound, limit: number): [number, number][] {
  const { weights, bound } = proof;
  const tree = oneTree(matrix, n, weights);
  const cost = (i: number, j: number): number => matrix[i * n + j]! + weights[i]! + weights[j]!;
  const links: number[][] = Array.from({ length: n }, () => []);
  for (let j = 2; j < n; j++) {
    links[j]!.push(tree.parent[j]!);
    links[tree.parent[j]!]!.push(j);
  }
  const edges: [number, number][] = [];
  const dearerEnd = Math.max(cost(0, tree.ends[0]), cost(0, tree.ends[1]));
  for (let j = 1; j < n; j++) if (bound + Math.max(0, cost(0, j) - dearerEnd) <= limit + 1e-6) edges.push([0, j]);
  for (let i = 1; i < n; i++) {
    // The dearest edge on the tree path from i to every other place is what a new edge replaces.
    const dearest = new Float64Array(n).fill(-Infinity);
    const stack: [number, number][] = [[i, -1]];
    while (stack.length > 0) {
      const [at, from] = stack.pop()!;
      for (const to of links[at]!) {
        if (to === from) continue;
        dearest[to] = Math.max(dearest[at]!, cost(at, to));
        stack.push([to, at]);
      }
    }
    for (let j = i + 1; j < n; j++) if (bound + Math.max(0, cost(i, j) - dearest[j]!) <= limit + 1e-6) edges.push([i, j]);
  }
  return edges;
}
