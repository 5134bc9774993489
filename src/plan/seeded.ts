/**
 * Seeded random numbers for sampling: the same seed gives the same numbers on every machine. Generator sfc32
 * (small fast counting generator with 128 bits of state; algorithm from memory of the PractRand suite).
 */

export interface Sampler {
  /** Uniform in [0, 1), 53 bits. */
  readonly next: () => number;
  /** Uniform in (−1, 1). */
  readonly symmetric: () => number;
}

export function seededSampler(seed: number): Sampler {
  let a = seed >>> 0;
  let b = Math.floor(seed / 4_294_967_296) >>> 0;
  let c = 0x9e3779b9;
  let counter = 1;
  const word = (): number => {
    const sum = (a + b + counter) >>> 0;
    counter = (counter + 1) >>> 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) >>> 0;
    c = (((c << 21) | (c >>> 11)) + sum) >>> 0;
    return sum;
  };
  for (let n = 0; n < 16; n++) word();
  const next = () => ((word() >>> 5) * 67_108_864 + (word() >>> 6)) / 9_007_199_254_740_992;
  return { next, symmetric: () => 2 * next() - 1 };
}
