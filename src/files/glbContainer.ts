/**
 * The binary container of glTF 2.0 (Khronos glTF 2.0 specification, "GLB File Format Specification"): one JSON chunk, one
 * buffer, little-endian, everything on a boundary of four bytes.
 */
const FLOAT = 5126;
const UNSIGNED_INT = 5125;
const ARRAY_BUFFER = 34962;
const ELEMENT_ARRAY_BUFFER = 34963;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const MAGIC = 0x46546c67;

/** Collects the binary data of a file; the numbers returned are glTF indices. */
export class GlbContainer {
  private readonly pieces: (Float32Array | Uint32Array | Uint8Array)[] = [];
  private readonly bufferViews: object[] = [];
  private readonly accessors: object[] = [];
  private byteLength = 0;

  /** Corners of a mesh: two or three numbers to a vertex. */
  addVertices(data: Float32Array, type: 'VEC2' | 'VEC3', bounded = false): number {
    const count = data.length / (type === 'VEC2' ? 2 : 3);
    const fields = { componentType: FLOAT, count, type, ...(bounded ? bounds(data) : {}) };
    return this.accessors.push({ bufferView: this.addView(data, ARRAY_BUFFER), ...fields }) - 1;
  }

  addIndices(data: Uint32Array): number {
    const fields = { componentType: UNSIGNED_INT, count: data.length, type: 'SCALAR' };
    return this.accessors.push({ bufferView: this.addView(data, ELEMENT_ARRAY_BUFFER), ...fields }) - 1;
  }

  /** Any other data, such as a picture; returns the number of its view. */
  addBytes(data: Uint8Array): number {
    return this.addView(data);
  }

  /** The file: `json` is the document without its accessors, views and buffer. */
  write(json: object): Uint8Array<ArrayBuffer> {
    const { accessors, bufferViews, byteLength } = this;
    const text = JSON.stringify({ ...json, accessors, bufferViews, buffers: [{ byteLength }] });
    return this.bytes(new TextEncoder().encode(text));
  }

  private addView(data: Float32Array | Uint32Array | Uint8Array, target?: number): number {
    this.pieces.push(data);
    const view = { buffer: 0, byteOffset: this.byteLength, byteLength: data.byteLength };
    this.byteLength += Math.ceil(data.byteLength / 4) * 4;
    return this.bufferViews.push(target === undefined ? view : { ...view, target }) - 1;
  }

  private bytes(json: Uint8Array): Uint8Array<ArrayBuffer> {
    const jsonLength = Math.ceil(json.length / 4) * 4;
    const bytes = new Uint8Array(12 + 8 + jsonLength + 8 + this.byteLength);
    const view = new DataView(bytes.buffer);
    [MAGIC, 2, bytes.length, jsonLength, JSON_CHUNK].forEach((word, i) => view.setUint32(i * 4, word, true));
    bytes.fill(0x20, 20, 20 + jsonLength);
    bytes.set(json, 20);
    view.setUint32(20 + jsonLength, this.byteLength, true);
    view.setUint32(24 + jsonLength, BINARY_CHUNK, true);
    let at = 28 + jsonLength;
    for (const piece of this.pieces) {
      if (piece instanceof Uint8Array) bytes.set(piece, at);
      else if (piece instanceof Float32Array)
        piece.forEach((value, i) => view.setFloat32(at + 4 * i, value, true));
      else piece.forEach((value, i) => view.setUint32(at + 4 * i, value, true));
      at += Math.ceil(piece.byteLength / 4) * 4;
    }
    return bytes;
  }
}

function bounds(positions: Float32Array): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3], value);
    max[i % 3] = Math.max(max[i % 3], value);
  });
  return { min, max };
}
