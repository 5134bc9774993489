/**
 * The finished piece as one USDZ file, for a phone that sets it on the table before the camera.
 *
 * Package: "Usdz File Format Specification" 1.3 (openusd.org/release/spec_usdz.html): a zip archive whose files are neither
 * compressed nor encrypted, the data of each at a multiple of 64 bytes, the first a USD layer, pictures as PNG or JPEG.
 * Layer: text ("usda"), metres (metersPerUnit 1), y up, the piece standing on y = 0; the material after "UsdPreviewSurface
 * Specification" 2.6 (openusd.org/release/spec_usdpreviewsurface.html), where a picture's v runs up.
 *
 * Not three's own exporter: it reads the picture through a canvas once more and shrinks it, writes every number with
 * seven digits, and stamps the hour into the file.
 */
import { strToU8, zipSync, type Zippable } from 'fflate';
import type { Skin } from '../meshes/skin/skin.ts';
import { standing_m, type SkinPicture } from './glbSkin.ts';
import type { Shine } from './look.ts';
import { zipDate } from './zipDate.ts';

const ALIGNMENT = 64;
/** Size of a local header without name and extra field, and of an extra field without content (zip, APPNOTE 4.3.7, 4.5). */
const LOCAL_HEADER = 30;
const EXTRA_HEADER = 4;
/** An extra field that nobody has claimed: readers pass over it. */
const PADDING_FIELD = 0x1986;

export function writeUsdz(
  title: string,
  skin: Skin,
  picture: SkinPicture,
  shine: Shine,
): Uint8Array<ArrayBuffer> {
  const image = picture.mimeType === 'image/png' ? 'textures/wood.png' : 'textures/wood.jpg';
  return packed([
    ['piece.usda', strToU8(layerOf(title, skin, image, shine))],
    [image, picture.bytes],
  ]);
}

/** A zip of stored files, each with its data on the boundary. */
export function packed(
  files: readonly (readonly [name: string, bytes: Uint8Array])[],
): Uint8Array<ArrayBuffer> {
  const entries: Zippable = {};
  let at = 0;
  for (const [name, bytes] of files) {
    const start = at + LOCAL_HEADER + strToU8(name).length + EXTRA_HEADER;
    const padding = (ALIGNMENT - (start % ALIGNMENT)) % ALIGNMENT;
    entries[name] = [
      bytes,
      // Local time on purpose: fflate writes the local clock's fields, so the bytes are the same in every zone.
      { level: 0, mtime: zipDate(), extra: { [PADDING_FIELD]: new Uint8Array(padding) } },
    ];
    at = start + padding + bytes.length;
  }
  return zipSync(entries);
}

function layerOf(title: string, skin: Skin, image: string, shine: Shine): string {
  const { mesh, places } = skin;
  const points = standing_m(skin);
  const flipped = places.map((value, i) => (i % 2 === 1 ? 1 - value : value));
  const low = [0, 1, 2].map((k) => least(points, k, Math.min, Infinity));
  const high = [0, 1, 2].map((k) => least(points, k, Math.max, -Infinity));
  const lacquer =
    shine.lacquer === undefined
      ? ''
      : `
            float inputs:clearcoat = 1
            float inputs:clearcoatRoughness = ${shine.lacquer}`;
  return `#usda 1.0
(
    customLayerData = {
        string creator = "Kerfweave"
        string title = ${quoted(title)}
    }
    defaultPrim = "Piece"
    metersPerUnit = 1
    upAxis = "Y"
)

def Xform "Piece" (
    kind = "component"
)
{
    def Mesh "Skin" (
        prepend apiSchemas = ["MaterialBindingAPI"]
    )
    {
        float3[] extent = [${tuple(low, 6)}, ${tuple(high, 6)}]
        int[] faceVertexCounts = [${Array.from({ length: mesh.indices.length / 3 }, () => 3).join(', ')}]
        int[] faceVertexIndices = [${mesh.indices.join(', ')}]
        rel material:binding = </Piece/Wood>
        normal3f[] normals = [${tuples(mesh.normals, 3, 4)}] (
            interpolation = "vertex"
        )
        point3f[] points = [${tuples(points, 3, 6)}]
        texCoord2f[] primvars:st = [${tuples(flipped, 2, 6)}] (
            interpolation = "vertex"
        )
        uniform token subdivisionScheme = "none"
    }

    def Material "Wood"
    {
        token outputs:surface.connect = </Piece/Wood/Surface.outputs:surface>

        def Shader "Surface"
        {
            uniform token info:id = "UsdPreviewSurface"
            color3f inputs:diffuseColor.connect = </Piece/Wood/Picture.outputs:rgb>
            float inputs:metallic = 0
            float inputs:roughness = ${shine.roughness}${lacquer}
            token outputs:surface
        }

        def Shader "Picture"
        {
            uniform token info:id = "UsdUVTexture"
            asset inputs:file = @${image}@
            token inputs:sourceColorSpace = "sRGB"
            float2 inputs:st.connect = </Piece/Wood/Places.outputs:result>
            token inputs:wrapS = "clamp"
            token inputs:wrapT = "clamp"
            float3 outputs:rgb
        }

        def Shader "Places"
        {
            uniform token info:id = "UsdPrimvarReader_float2"
            string inputs:varname = "st"
            float2 outputs:result
        }
    }
}
`;
}

function least(
  points: Float32Array,
  axis: number,
  choose: (a: number, b: number) => number,
  start: number,
): number {
  let found = start;
  for (let i = axis; i < points.length; i += 3) found = choose(found, points[i]);
  return found;
}

function tuples(values: Float32Array, size: number, digits: number): string {
  const out: string[] = [];
  for (let i = 0; i < values.length; i += size) out.push(tuple(values.subarray(i, i + size), digits));
  return out.join(', ');
}

/** Micrometres are six digits of a metre. */
function tuple(values: Iterable<number>, digits: number): string {
  return `(${Array.from(values, (value) => Number(value.toFixed(digits)) + 0).join(', ')})`;
}

/** A string of the text format: quotes, backslashes and line ends are written as escapes. */
function quoted(text: string): string {
  return JSON.stringify(text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' '));
}
