/**
 * Numerical integration: Gauss–Legendre rules of any order, and an adaptive rule on nested nodes whose error
 * estimate is the change from one level to the next.
 *
 * Sources: Gauss–Legendre nodes as roots of P_n by Newton's method on the three-term recurrence, weights
 * 2 / ((1 − x²) P′_n²) (Abramowitz & Stegun 25.4.29, from memory). Fejér's second rule: nodes cos(kπ/(n + 1)),
 * weights as in J. Waldvogel, "Fast construction of the Fejér and Clenshaw–Curtis quadrature rules", BIT 46
 * (2006) (from memory); the nodes for n = 1, 3, 7, 15 are nested. Both are checked on polynomials.
 */

export interface Rule {
  /** In (−1, 1), ascending. */
  readonly nodes: Float64Array;
  /** They add up to 2. */
  readonly weights: Float64Array;
}

const legendreRules = new Map<number, Rule>();

/** Gauss–Legendre rule with n nodes on [−1, 1]; exact for polynomials up to degree 2n − 1. */
export function gaussLegendre(n: number): Rule {
  const known = legendreRules.get(n);
  if (known) return known;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let previous = 1;
      let current = x;
      for (let k = 2; k <= n; k++) {
        const next = ((2 * k - 1) * x * current - (k - 1) * previous) / k;
        previous = current;
        current = next;
      }
      slope = (n * (x * current - previous)) / (x * x - 1);
      const change = current / slope;
      x -= change;
      if (Math.abs(change) < 1e-16) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  legendreRules.set(n, rule);
  return rule;
}

/** Fejér's second rule with n = 2^m − 1 nodes on [−1, 1]; every second node belongs to the rule before. */
export function fejer(n: number): Rule {
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let k = 1; k <= n; k++) {
    const angle = (Math.PI * (n + 1 - k)) / (n + 1);
    let sum = 0;
    for (let j = 1; j <= (n + 1) / 2; j++) sum += Math.sin((2 * j - 1) * angle) / (2 * j - 1);
    nodes[k - 1] = 2 * k === n + 1 ? 0 : Math.cos(angle);
    weights[k - 1] = ((4 * Math.sin(angle)) / (n + 1)) * sum;
  }
  return { nodes, weights };
}

const NESTED = [fejer(1), fejer(3), fejer(7), fejer(15)];

export interface Estimate {
  readonly value: number;
  /**
   * A third of the sum of the last changes: where the integrand has a kink, twice the nodes leave a quarter
   * of the error, so the last change is three times what remains; where it is smooth, far more.
   */
  readonly error: number;
}

/**
 * ∫ f over [from, to] on nested nodes: levels are added until the estimated error is no more than `tolerance`;
 * after the last level the interval is halved, at most `depth` times. `firstLevel`: the levels have 1, 3, 7, 15
 * nodes; the first to be compared with the one before it.
 */
export function integrateNested(
  f: (x: number) => number,
  from: number,
  to: number,
  tolerance: number,
  depth: number,
  firstLevel = 1,
): Estimate {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  const values = new Float64Array(15);
  let previous = 0;
  let error = Infinity;
  for (let level = 0; level < NESTED.length; level++) {
    const { nodes, weights } = NESTED[level];
    const stride = 16 >> (level + 1);
    let sum = 0;
    for (let k = 0; k < nodes.length; k++) {
      const slot = (k + 1) * stride - 1;
      if (level === 0 || k % 2 === 0) values[slot] = f(middle + half * nodes[k]);
      sum += weights[k] * values[slot];
    }
    const value = sum * half;
    error = level === 0 ? Infinity : Math.abs(value - previous) / 3;
    if (level >= firstLevel && error <= tolerance) return { value, error };
    previous = value;
  }
  if (depth === 0) return { value: previous, error };
  const left = integrateNested(f, from, middle, tolerance / 2, depth - 1, firstLevel);
  const right = integrateNested(f, middle, to, tolerance / 2, depth - 1, firstLevel);
  return { value: left.value + right.value, error: left.error + right.error };
}
