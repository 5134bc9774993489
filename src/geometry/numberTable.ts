/** A number for some of the vertices or edges of a complex, forgotten all at once: a map without its cost for small faces. */
export class NumberTable {
  #value = new Int32Array(4096);
  #stamp = new Int32Array(4096);
  #run = 0;

  clear(): void {
    this.#run++;
  }

  /** The number at an index, or −1. */
  get(index: number): number {
    return index < this.#stamp.length && this.#stamp[index] === this.#run ? this.#value[index] : -1;
  }

  set(index: number, value: number): void {
    if (index >= this.#stamp.length) {
      const stamp = new Int32Array(2 * index + 2);
      stamp.set(this.#stamp);
      this.#stamp = stamp;
      const values = new Int32Array(stamp.length);
      values.set(this.#value);
      this.#value = values;
    }
    this.#stamp[index] = this.#run;
    this.#value[index] = value;
  }
}
