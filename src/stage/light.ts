/**
 * The studio's colours by theme, light and finish, as the shaders take them (linear, before exposure). Directions are in
 * the rig's frame, which turns with the camera: x to the right, y up, z toward the camera.
 */
import { Color, Matrix3, Vector2, Vector3, type Texture } from 'three';
import type { Uniforms } from './material.ts';
import type { Finish, StudioLight, Theme } from './props.ts';
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
    key: [1.24, 1.215, 1.175],
    fill: [0.2, 0.21, 0.23],
    rim: [0.22, 0.22, 0.22],
    skyStrength: 0.26,
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
    // From behind, so that dark woods stand out against the dark.
    rim: [0.62, 0.63, 0.66],
    skyStrength: 0.34,
    exposure: 0.98,
    floor: '#383634',
    wallLow: '#302f2e',
    wallHigh: '#1c1d1f',
  },
};

type Rgb = readonly [number, number, number];

/** What a light makes of the theme's studio. Colours are factors on the theme's. */
interface LightSetup {
  /** Toward the key light, any length. */
  readonly key: readonly [number, number, number];
  /** Toward the middle of the panel that a polish shows of it, and half its width and height at distance one. */
  readonly panel: readonly [number, number, number];
  readonly half: readonly [number, number];
  readonly keyTint: Rgb;
  readonly fillTint: Rgb;
  readonly rimTint: Rgb;
  readonly skyTint: Rgb;
  readonly groundTint: Rgb;
  readonly backdropTint: Rgb;
  readonly exposure: number;
  /** Breadth of the shadow's edges; 1: the studio's key. */
  readonly soft: number;
  /** Depth of the shade on the floor; 1: the studio's. */
  readonly shade: number;
}

const PLAIN: Rgb = [1, 1, 1];

const LIGHTS: Readonly<Record<StudioLight, LightSetup>> = {
  studio: {
    key: [-0.56, 0.62, 0.6],
    panel: [-0.7177, 0.1641, 0.6767],
    half: [0.26, 1],
    keyTint: PLAIN,
    fillTint: PLAIN,
    rimTint: PLAIN,
    skyTint: PLAIN,
    groundTint: PLAIN,
    backdropTint: PLAIN,
    exposure: 1,
    soft: 1,
    shade: 1,
  },
  // A tall window beside the bench: cool light from the side, little from anywhere else.
  window: {
    key: [-0.86, 0.4, 0.32],
    panel: [-0.9, 0.14, 0.42],
    half: [0.42, 1.15],
    keyTint: [1.16, 1.21, 1.28],
    fillTint: [0.66, 0.72, 0.8],
    rimTint: [0.35, 0.38, 0.44],
    skyTint: [0.95, 1.02, 1.1],
    groundTint: [0.9, 0.9, 0.9],
    backdropTint: [0.93, 0.955, 0.985],
    exposure: 1,
    soft: 1.5,
    shade: 0.95,
  },
  // Out of doors under cloud: the whole sky is the lamp, so colours are even and shadows faint.
  overcast: {
    key: [-0.2, 0.93, 0.32],
    panel: [-0.25, 0.62, 0.74],
    half: [1.1, 0.75],
    keyTint: [0.52, 0.545, 0.57],
    fillTint: [1.45, 1.52, 1.6],
    rimTint: [0.6, 0.64, 0.68],
    skyTint: [2.6, 2.65, 2.72],
    groundTint: [1.7, 1.7, 1.7],
    backdropTint: [0.965, 0.985, 1],
    exposure: 1.12,
    soft: 2.4,
    shade: 0.62,
  },
  // A low sun in a room: warm from the right, the shadows side blue.
  evening: {
    key: [0.74, 0.36, 0.58],
    panel: [0.78, 0.2, 0.6],
    half: [0.2, 0.62],
    keyTint: [1.3, 0.98, 0.66],
    fillTint: [0.52, 0.62, 0.9],
    rimTint: [1.2, 0.84, 0.56],
    skyTint: [0.88, 0.94, 1.16],
    groundTint: [1.15, 0.95, 0.78],
    backdropTint: [0.95, 0.885, 0.8],
    exposure: 1,
    soft: 0.8,
    shade: 1.1,
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
  oiled: { rough: 0.22, coat: 1.35, silk: 0.85, oil: 1 },
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
    uKeyTo: { value: new Vector3() },
    uKeyPanel: { value: new Matrix3() },
    uKeyHalf: { value: new Vector2() },
    uSunSoft: { value: 1 },
    uShade: { value: 1 },
    uFill: { value: new Vector3() },
    uRim: { value: new Vector3() },
    uExposure: { value: 1 },
    uFloorColour: { value: new Color() },
    uWallLow: { value: new Color() },
    uWallHigh: { value: new Color() },
  };

  /** Toward the key light, rig's frame, length one. */
  get keyTo(): Vector3 {
    return this.uniforms.uKeyTo.value as Vector3;
  }

  /** Sets the studio up; true when shadows fall otherwise than before. */
  setLight(theme: Theme, lightName: StudioLight): boolean {
    const studio = THEMES[theme];
    const light = LIGHTS[lightName];
    const u = this.uniforms;
    const vector = (name: string): Vector3 => u[name].value as Vector3;
    const colour = (name: string): Color => u[name].value as Color;
    tint(colour('uSky').set(studio.sky).multiplyScalar(studio.skyStrength), light.skyTint);
    tint(
      colour('uGround')
        .set(studio.ground)
        .multiplyScalar(studio.skyStrength * 0.85),
      light.groundTint,
    );
    vector('uKey')
      .set(...studio.key)
      .multiply(new Vector3(...light.keyTint));
    vector('uFill')
      .set(...studio.fill)
      .multiply(new Vector3(...light.fillTint));
    vector('uRim')
      .set(...studio.rim)
      .multiply(new Vector3(...light.rimTint));
    u.uExposure.value = studio.exposure * light.exposure;
    // The backdrop is written as it should appear: no light falls on it but the piece's shadow.
    tint(colour('uFloorColour').setStyle(studio.floor, 'srgb-linear'), light.backdropTint);
    tint(colour('uWallLow').setStyle(studio.wallLow, 'srgb-linear'), light.backdropTint);
    tint(colour('uWallHigh').setStyle(studio.wallHigh, 'srgb-linear'), light.backdropTint);
    const before = this.keyTo.clone();
    const softBefore = u.uSunSoft.value as number;
    this.keyTo.set(...light.key).normalize();
    (u.uKeyPanel.value as Matrix3).copy(panelAxes(light.panel));
    (u.uKeyHalf.value as Vector2).set(...light.half);
    u.uSunSoft.value = light.soft;
    u.uShade.value = light.shade;
    return !before.equals(this.keyTo) || softBefore !== light.soft;
  }

  dispose(): void {
    this.timbers.dispose();
    this.noise.dispose();
  }
}

function tint(colour: Color, [r, g, b]: Rgb): void {
  colour.setRGB(colour.r * r, colour.g * g, colour.b * b);
}

/** Middle of a panel and its two sides as columns: the first side level, the second upward. */
function panelAxes(toward: readonly [number, number, number]): Matrix3 {
  const middle = new Vector3(...toward).normalize();
  const level = new Vector3(middle.z, 0, -middle.x).normalize();
  const up = new Vector3().crossVectors(middle, level);
  return new Matrix3().set(middle.x, level.x, up.x, middle.y, level.y, up.y, middle.z, level.z, up.z);
}
