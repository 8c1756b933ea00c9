const BLOCK = 2 ** 22;

/**
 * A file that grows in memory while the library writes it, in blocks: doubling one array inside the library
 * would need twice its size on top, in a memory that never shrinks.
 */
export class GrowingFile {
  readonly #blocks: (Uint8Array | null)[] = [];
  #position = 0;
  #length = 0;

  write(data: Uint8Array): number {
    for (let done = 0; done < data.length; ) {
      const offset = this.#position % BLOCK;
      const part = data.subarray(done, done + BLOCK - offset);
      this.#blockAt(this.#position).set(part, offset);
      done += part.length;
      this.#position += part.length;
    }
    if (data.length > 0) this.#length = Math.max(this.#length, this.#position);
    return data.length;
  }

  read(count: number): Uint8Array {
    const out = new Uint8Array(Math.max(0, Math.min(count, this.#length - this.#position)));
    for (let done = 0; done < out.length; ) {
      const offset = this.#position % BLOCK;
      const part = this.#blockAt(this.#position).subarray(
        offset,
        Math.min(BLOCK, offset + out.length - done),
      );
      out.set(part, done);
      done += part.length;
      this.#position += part.length;
    }
    return out;
  }

  /** `whence` as in POSIX: 0 from the start, 1 from here, 2 from the end. */
  seek(offset: number, whence: number): number {
    this.#position = offset + (whence === 1 ? this.#position : whence === 2 ? this.#length : 0);
    return this.#position;
  }

  /** The whole content; the blocks are given up on the way, so this can be done once. */
  take(): Uint8Array {
    const out = new Uint8Array(this.#length);
    for (let at = 0; at < out.length; at += BLOCK) {
      out.set(this.#blockAt(at).subarray(0, out.length - at), at);
      this.#blocks[at / BLOCK] = null;
    }
    return out;
  }

  #blockAt(position: number): Uint8Array {
    const index = Math.floor(position / BLOCK);
    const block = this.#blocks[index] ?? new Uint8Array(BLOCK);
    this.#blocks[index] = block;
    return block;
  }
}
