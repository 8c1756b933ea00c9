import type { SeenMap } from '../picture/desk.ts';
import type { CardPass, CardSource } from '../picture/edit-desk.ts';
import { FRAGMENT, VERTEX } from './shader.ts';

/** The graphics card, showing one picture through baked tables. */
export interface Card {
  /** What was drawn last, ready to be drawn elsewhere. */
  readonly canvas: HTMLCanvasElement;
  /** False once the card has given up; it must not be used then. */
  alive(): boolean;
  setPicture(source: CardSource): void;
  /** Draws all passes; `covers` has a map for each pass that works in an area. */
  draw(passes: readonly CardPass[], covers: readonly (SeenMap | null)[]): void;
  /** Waits until the last picture is there. */
  finish(): void;
  end(): void;
}

/** Takes the card, or null where there is none that can do it. `onLost` is called when it gives up. */
export function takeCard(space: PredefinedColorSpace, onLost: () => void): Card | null {
  const canvas = document.createElement('canvas');
  // The picture is drawn on from here later than it was made.
  const gl = canvas.getContext('webgl2', { preserveDrawingBuffer: true, antialias: false, depth: false });
  // Passes in between need more than eight bits.
  if (gl?.getExtension('EXT_color_buffer_float') == null) return null;
  const program = build(gl);
  if (program === null) return null;
  if ('drawingBufferColorSpace' in gl) gl.drawingBufferColorSpace = space;
  const at = (name: string): WebGLUniformLocation | null => gl.getUniformLocation(program, name);
  const places = {
    picture: at('picture'),
    cover: at('cover'),
    table: at('table'),
    side: at('side'),
    levels: at('levels'),
    low: at('low'),
    high: at('high'),
    last: at('last'),
  };
  let alive = true;
  canvas.addEventListener('webglcontextlost', (event) => {
    event.preventDefault();
    if (alive) onLost();
    alive = false;
  });

  const picture = flat(gl);
  const cover = flat(gl);
  const between = [flat(gl), flat(gl)];
  const frame = gl.createFramebuffer();
  const table = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_3D, table);
  for (const side of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER])
    gl.texParameteri(gl.TEXTURE_3D, side, gl.NEAREST);
  let size = { width: 1, height: 1 };

  const put = (unit: number, target: number, texture: WebGLTexture | null): void => {
    gl.activeTexture(gl.TEXTURE0 + unit);
    gl.bindTexture(target, texture);
  };
  const setTable = ({ size: n, levels, data }: CardPass): void => {
    put(2, gl.TEXTURE_3D, table);
    gl.texImage3D(gl.TEXTURE_3D, 0, gl.RGBA16F, n, n, n * levels, 0, gl.RGBA, gl.FLOAT, data);
  };
  const setCover = (map: SeenMap | null): void => {
    put(1, gl.TEXTURE_2D, cover);
    const { width, height, data } = map ?? { width: 1, height: 1, data: new Uint8Array([255]) };
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.R8, width, height, 0, gl.RED, gl.UNSIGNED_BYTE, data);
  };

  return {
    canvas,
    alive: () => alive && !gl.isContextLost(),
    setPicture({ width, height, data }) {
      size = { width, height };
      canvas.width = width;
      canvas.height = height;
      put(0, gl.TEXTURE_2D, picture);
      gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA16F, width, height, 0, gl.RGBA, gl.FLOAT, data);
      for (const texture of between) {
        put(0, gl.TEXTURE_2D, texture);
        gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA16F, width, height, 0, gl.RGBA, gl.FLOAT, null);
      }
    },
    draw(passes, covers) {
      // biome-ignore lint/correctness/useHookAtTopLevel: a call of WebGL, no hook
      gl.useProgram(program);
      gl.viewport(0, 0, size.width, size.height);
      gl.disable(gl.BLEND);
      gl.uniform1i(places.picture, 0);
      gl.uniform1i(places.cover, 1);
      gl.uniform1i(places.table, 2);
      let from = picture;
      for (const [index, pass] of passes.entries()) {
        const last = index === passes.length - 1;
        const to = between[index % 2];
        gl.bindFramebuffer(gl.FRAMEBUFFER, last ? null : frame);
        if (!last) gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, to, 0);
        setTable(pass);
        setCover(covers[index] ?? null);
        put(0, gl.TEXTURE_2D, from);
        gl.uniform1i(places.side, pass.size);
        gl.uniform1i(places.levels, pass.levels);
        gl.uniform3fv(places.low, pass.low);
        gl.uniform3fv(places.high, pass.high);
        gl.uniform1i(places.last, last ? 1 : 0);
        gl.drawArrays(gl.TRIANGLES, 0, 3);
        from = to;
      }
    },
    finish() {
      // Reading one place back is what truly waits.
      gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    },
    end() {
      alive = false;
      gl.getExtension('WEBGL_lose_context')?.loseContext();
    },
  };
}

/** A texture that is read place by place. */
function flat(gl: WebGL2RenderingContext): WebGLTexture | null {
  const texture = gl.createTexture();
  gl.bindTexture(gl.TEXTURE_2D, texture);
  for (const side of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER])
    gl.texParameteri(gl.TEXTURE_2D, side, gl.NEAREST);
  return texture;
}

function build(gl: WebGL2RenderingContext): WebGLProgram | null {
  const program = gl.createProgram();
  for (const [kind, source] of [
    [gl.VERTEX_SHADER, VERTEX],
    [gl.FRAGMENT_SHADER, FRAGMENT],
  ] as const) {
    const shader = gl.createShader(kind);
    if (shader === null) return null;
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  return gl.getProgramParameter(program, gl.LINK_STATUS) ? program : null;
}
