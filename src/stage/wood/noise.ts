/**
 * Repeatable random numbers and the noise volume that the wood is drawn from: four independent channels of white
 * noise, 64 cells a side, repeating. The graphics card smooths it (the shader eases the steps) and its smaller copies
 * let fine figure fade where a pixel covers many cells.
 */
import {
  Data3DTexture,
  LinearFilter,
  LinearMipmapNearestFilter,
  RepeatWrapping,
  RGBAFormat,
  UnsignedByteType,
} from 'three';

export const NOISE_CELLS = 64;

/** A generator of numbers in [0, 1) from a seed (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A 32-bit number that depends on every character of a text (FNV-1a). */
export function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash;
}

export function noiseVolume(): Data3DTexture {
  const random = randomFrom(20231);
  const data = new Uint8Array(4 * NOISE_CELLS ** 3);
  for (let i = 0; i < data.length; i++) data[i] = Math.floor(random() * 256);
  const texture = new Data3DTexture(data, NOISE_CELLS, NOISE_CELLS, NOISE_CELLS);
  texture.format = RGBAFormat;
  texture.type = UnsignedByteType;
  texture.wrapS = texture.wrapT = texture.wrapR = RepeatWrapping;
  texture.magFilter = LinearFilter;
  texture.minFilter = LinearMipmapNearestFilter;
  texture.generateMipmaps = true;
  texture.needsUpdate = true;
  return texture;
}
