/** A binary glTF file taken apart by its own container's rules (glTF 2.0 specification, "GLB File Format Specification"). */
export interface ReadGlb {
  readonly json: GlbJson;
  readonly positions: Float32Array;
  readonly places: Float32Array;
  readonly indices: Uint32Array;
  /** The one picture, as it lies in the file. */
  readonly picture: Uint8Array;
}

interface GlbJson {
  readonly accessors: readonly { bufferView: number; count: number }[];
  readonly bufferViews: readonly { byteOffset: number; byteLength: number }[];
  readonly meshes: readonly {
    primitives: readonly { attributes: Readonly<Record<string, number>>; indices: number }[];
  }[];
  readonly images: readonly { bufferView: number; mimeType: string }[];
}

export function readGlb(bytes: Uint8Array): ReadGlb {
  // Not slice: on a Buffer of Node that is a view of the same memory.
  const copy = Uint8Array.from(bytes);
  const view = new DataView(copy.buffer);
  const jsonLength = view.getUint32(12, true);
  const json = JSON.parse(new TextDecoder().decode(copy.subarray(20, 20 + jsonLength))) as GlbJson;
  const start = 28 + jsonLength;
  const bytesOf = (bufferView: number): Uint8Array<ArrayBuffer> => {
    const { byteOffset, byteLength } = json.bufferViews[bufferView];
    return copy.slice(start + byteOffset, start + byteOffset + byteLength);
  };
  const [{ attributes, indices }] = json.meshes[0].primitives;
  const accessor = (index: number) => bytesOf(json.accessors[index].bufferView).buffer;
  return {
    json,
    positions: new Float32Array(accessor(attributes.POSITION)),
    places: new Float32Array(accessor(attributes.TEXCOORD_0)),
    indices: new Uint32Array(accessor(indices)),
    picture: bytesOf(json.images[0].bufferView),
  };
}
