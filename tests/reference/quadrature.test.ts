/** Integration rules on polynomials, and the half-width integral on its closed forms (elementary calculus). */
import { expect, test } from 'vitest';
import { halfWidthIntegral, pieceIntegral } from '../../src/geometry/halfWidth.ts';
import { fejer, gaussLegendre, integrateNested } from '../../src/geometry/quadrature.ts';

/** ∫ xⁿ over [−1, 1]. */
const moment = (n: number) => (n % 2 === 0 ? 2 / (n + 1) : 0);

test('Gauss–Legendre rules are exact to degree 2n − 1', () => {
  for (const n of [1, 2, 5, 10, 16]) {
    const { nodes, weights } = gaussLegendre(n);
    for (let degree = 0; degree <= 2 * n - 1; degree++) {
      const sum = nodes.reduce((total, x, i) => total + weights[i] * x ** degree, 0);
      expect(sum).toBeCloseTo(moment(degree), 13);
    }
  }
  // Abramowitz & Stegun, table 25.4, from memory: n = 3 has nodes 0 and √(3/5), weights 8/9 and 5/9.
  expect(gaussLegendre(3).nodes[2]).toBeCloseTo(Math.sqrt(0.6), 14);
  expect(gaussLegendre(3).weights[1]).toBeCloseTo(8 / 9, 14);
});

test('Fejér rules are exact to degree n − 1 and nested', () => {
  let before: Float64Array = new Float64Array();
  for (const n of [1, 3, 7, 15]) {
    const { nodes, weights } = fejer(n);
    for (let degree = 0; degree < n; degree++) {
      const sum = nodes.reduce((total, x, i) => total + weights[i] * x ** degree, 0);
      expect(sum).toBeCloseTo(moment(degree), 13);
    }
    before.forEach((x, i) => expect(nodes[2 * i + 1]).toBeCloseTo(x, 14));
    before = nodes;
  }
});

test('the nested rule keeps its promise on smooth, kinked and rooted integrands', () => {
  const cases: [(x: number) => number, number][] = [
    [Math.exp, Math.E - 1],
    [(x) => Math.abs(x - 0.3), (0.3 ** 2 + 0.7 ** 2) / 2],
    [Math.sqrt, 2 / 3],
  ];
  for (const [f, exact] of cases) {
    const { value, error } = integrateNested(f, 0, 1, 1e-7, 12);
    expect(Math.abs(value - exact)).toBeLessThan(3e-7);
    expect(error).toBeLessThan(1e-6);
  }
});

test('half-width of a cut: cone along its axis, disc, cylinder, and what vanishes at both ends or at one', () => {
  // r = λ, u = 0: V = λ.
  expect(halfWidthIntegral(0, 1, 0, 0)).toBeCloseTo(1 / 2, 10);
  // r = 1/2, u from 1/2 to −1/2: V = √(λ (1 − λ)), half a disc of diameter 1.
  expect(halfWidthIntegral(0.5, 0.5, 0.5, -0.5)).toBeCloseTo(Math.PI / 8, 10);
  // u beyond r at both ends: 2 √(1 − u²) over u from −2 to 2.
  expect(halfWidthIntegral(1, 1, -2, 2)).toBeCloseTo(Math.PI / 2 / 4, 10);
  expect(halfWidthIntegral(1, 1, 0.6, 0.6)).toBeCloseTo(0.8, 12);
  expect(halfWidthIntegral(1, 1, 2, 3)).toBe(0);
  // Both factors nearly vanish at one end: √((λ + ε)(λ + 2ε)), antiderivative with x = λ + 3ε/2:
  // ½ (x √(x² − ε²/4) − ε²/4 · acosh(2x / ε)).
  for (const eps of [1e-2, 1e-6, 1e-12]) {
    const F = (t: number) => {
      const x = t + 1.5 * eps;
      const q = eps / 2;
      return (x * Math.sqrt(x * x - q * q) - q * q * Math.acosh(x / q)) / 2;
    };
    // r − u = λ + ε, r + u = λ + 2ε.
    const value = halfWidthIntegral(1.5 * eps, 1 + 1.5 * eps, eps / 2, eps / 2);
    expect(value).toBeCloseTo(F(1) - F(0), 8);
  }
});

test('a side limited to the cut: inside, across and beyond', () => {
  expect(pieceIntegral(5, 5, 0, 0, 1, 3)).toBe(2);
  // v from −2 to 2 on a disc of radius 1 at u = 0: −1, then v, then 1, which cancel.
  expect(pieceIntegral(1, 1, 0, 0, -2, 2)).toBeCloseTo(0, 14);
  // v from 0 to 2: ∫ min(v, 1): (1/2 + 1) / 2.
  expect(pieceIntegral(1, 1, 0, 0, 0, 2)).toBeCloseTo(0.75, 12);
  // A side that touches the circle: v = 1 while u runs from −1 to 1, V = √(1 − u²): π / 4.
  expect(pieceIntegral(1, 1, -1, 1, 1, 1)).toBeCloseTo(Math.PI / 4, 10);
});
