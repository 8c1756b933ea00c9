/**
 * A file in memory that the library writes to, outside the library's own memory, which never shrinks.
 *
 * Room for `capacity` bytes is taken at once: what is not written costs nothing, since the system gives pages
 * when they are touched, and what fits needs no second copy at the end.
 */
export class GrowingFile {
  #bytes: Uint8Array<ArrayBuffer>;
  #position = 0;
  #length = 0;

  constructor(capacity: number) {
    this.#bytes = new Uint8Array(capacity);
  }

  write(data: Uint8Array): number {
    if (data.length === 0) return 0;
    const end = this.#position + data.length;
    if (end > this.#bytes.length) {
      const larger = new Uint8Array(Math.max(end, 2 * this.#bytes.length));
      larger.set(this.#bytes.subarray(0, this.#length));
      this.#bytes = larger;
    }
    this.#bytes.set(data, this.#position);
    this.#position = end;
    this.#length = Math.max(this.#length, end);
    return data.length;
  }

  read(count: number): Uint8Array {
    const end = Math.min(this.#length, this.#position + count);
    const out = this.#bytes.slice(this.#position, Math.max(this.#position, end));
    this.#position += out.length;
    return out;
  }

  /** `whence` as in POSIX: 0 from the start, 1 from here, 2 from the end. */
  seek(offset: number, whence: number): number {
    this.#position = offset + (whence === 1 ? this.#position : whence === 2 ? this.#length : 0);
    return this.#position;
  }

  /** The content; in an array of its own unless it fills most of the room. */
  take(): Uint8Array {
    const much = this.#length > this.#bytes.length / 2;
    return much ? this.#bytes.subarray(0, this.#length) : this.#bytes.slice(0, this.#length);
  }
}
