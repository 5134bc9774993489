/** The studio's colours by theme and finish, as the shaders take them (linear, before exposure). */
import { Color, Matrix3, Vector3, type Texture } from 'three';
import type { Uniforms } from './material.ts';
import type { Finish, Theme } from './props.ts';
import { noiseVolume } from './wood/noise.ts';
import { timberTextures, type TimberTextures } from './wood/timberTexture.ts';

interface ThemeLight {
  readonly sky: string;
  readonly ground: string;
  readonly key: readonly [number, number, number];
  readonly fill: readonly [number, number, number];
  readonly rim: readonly [number, number, number];
  readonly skyStrength: number;
  readonly exposure: number;
  /** Backdrop in sRGB: floor near the piece, wall low and high. */
  readonly floor: string;
  readonly wallLow: string;
  readonly wallHigh: string;
}

const THEMES: Readonly<Record<Theme, ThemeLight>> = {
  light: {
    sky: '#f3f5f8',
    ground: '#d9c9b4',
    key: [1.17, 1.15, 1.115],
    fill: [0.28, 0.29, 0.31],
    rim: [0.22, 0.22, 0.22],
    skyStrength: 0.3,
    exposure: 0.98,
    floor: '#efe9df',
    wallLow: '#eae4da',
    wallHigh: '#cfcdc9',
  },
  dark: {
    sky: '#aab4c2',
    ground: '#54493e',
    key: [1.12, 1.05, 0.96],
    fill: [0.2, 0.23, 0.28],
    rim: [0.42, 0.45, 0.5],
    skyStrength: 0.34,
    exposure: 0.98,
    floor: '#2b2a2a',
    wallLow: '#242425',
    wallHigh: '#151618',
  },
};

interface FinishLook {
  readonly rough: number;
  readonly coat: number;
  readonly silk: number;
  readonly oil: number;
}

const FINISHES: Readonly<Record<Finish, FinishLook>> = {
  raw: { rough: 0.8, coat: 0.4, silk: 0.3, oil: 0 },
  oiled: { rough: 0.27, coat: 1.1, silk: 0.8, oil: 1 },
  gloss: { rough: 0.05, coat: 1.35, silk: 0.95, oil: 1 },
};

/** Writes a finish into a variant's uniforms; `share` 0: still raw from the tool, 1: done. */
export function applyFinish(uniforms: Uniforms, finish: Finish, share: number): void {
  const { raw } = FINISHES;
  const done = FINISHES[finish];
  const mixed = (key: keyof FinishLook): number => raw[key] + (done[key] - raw[key]) * share;
  uniforms.uRough.value = mixed('rough');
  uniforms.uCoat.value = mixed('coat');
  uniforms.uSilk.value = mixed('silk');
  uniforms.uOil.value = mixed('oil');
}

/** Everything that all variants share: timbers, noise, light, mode. */
export class SharedLook {
  readonly timbers: TimberTextures = timberTextures();
  private readonly noise: Texture = noiseVolume();
  readonly uniforms: Uniforms = {
    uTimbers: { value: this.timbers.table },
    uRings: { value: this.timbers.rings },
    uNoise: { value: this.noise },
    uMode: { value: 0 },
    uToRig: { value: new Matrix3() },
    uEye: { value: new Vector3() },
    uView: { value: new Vector3() },
    uSky: { value: new Color() },
    uGround: { value: new Color() },
    uKey: { value: new Vector3() },
    uFill: { value: new Vector3() },
    uRim: { value: new Vector3() },
    uExposure: { value: 1 },
    uFloorColour: { value: new Color() },
    uWallLow: { value: new Color() },
    uWallHigh: { value: new Color() },
  };

  setTheme(theme: Theme): void {
    const light = THEMES[theme];
    const u = this.uniforms;
    (u.uSky.value as Color).set(light.sky).multiplyScalar(light.skyStrength);
    (u.uGround.value as Color).set(light.ground).multiplyScalar(light.skyStrength * 0.85);
    (u.uKey.value as Vector3).set(...light.key);
    (u.uFill.value as Vector3).set(...light.fill);
    (u.uRim.value as Vector3).set(...light.rim);
    u.uExposure.value = light.exposure;
    // The backdrop is written as it should appear: no light falls on it but the piece's shadow.
    (u.uFloorColour.value as Color).setStyle(light.floor, 'srgb-linear');
    (u.uWallLow.value as Color).setStyle(light.wallLow, 'srgb-linear');
    (u.uWallHigh.value as Color).setStyle(light.wallHigh, 'srgb-linear');
  }

  dispose(): void {
    this.timbers.dispose();
    this.noise.dispose();
  }
}
