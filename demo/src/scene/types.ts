/**
 * The scene maker's language: what stands where, of what pigment, under which light.
 *
 * Right-handed space, y is up, lengths in any one unit (metres in the demo). All colours are linear light in
 * sRGB primaries. The reflection law is the plain diffuse one: colour = ρ·(Σ kᵢKᵢ + A), so that a white
 * surface facing an unobstructed key of colour K shows K + A.
 */

/** Three numbers: a point or a direction (x, y, z). */
export type Vec = readonly [number, number, number];

/** Linear light or reflectance (red, green, blue). */
export type Rgb = readonly [number, number, number];

/** Where the eye is. `fov` is the vertical angle of view in degrees; `shift` moves the picture plane, in heights. */
export interface Camera {
  readonly eye: Vec;
  readonly target: Vec;
  readonly fov: number;
  readonly shift?: readonly [number, number];
}

/** A place on a body in the body's own coordinates, handed to pigments. */
export interface Spot {
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
  nz: number;
}

/** Writes the reflectance (0…1 per channel) at a spot into `out`. Must be a pure function of the spot. */
export type Pigment = (at: Readonly<Spot>, out: Float64Array) => void;

/** Tilts the normal of a mirroring surface: writes the slopes along the body's x and z into `out`. */
export type Ripple = (x: number, z: number, out: Float64Array) => void;

/** Mirror reflection beside the diffuse one: Schlick's approximation from `facing` to `grazing`. */
export interface Mirror {
  readonly facing: number;
  readonly grazing: number;
  readonly ripple?: Ripple;
  /** Wetness 0…1 by place, e.g. puddles on mud; multiplies the share. Default 1 everywhere. */
  readonly cover?: (x: number, z: number) => number;
}

export interface Material {
  readonly name: string;
  readonly pigment: Pigment;
  readonly mirror?: Mirror;
  /** Light that the surface gives by itself, added to the reflected one. */
  readonly glow?: Rgb;
  /** The surface's own direction in the body's coordinates (boards, fibres): gives the `along` pass. */
  readonly grain?: Vec;
}

export type Shape =
  /** The plane y = 0, endless or limited to ± half sizes along x and z. Seen from both sides. */
  | { readonly kind: 'plane'; readonly halfX?: number; readonly halfZ?: number }
  /** A box around the origin, `size` = full lengths. */
  | { readonly kind: 'box'; readonly size: Vec }
  /** A ball around the origin. */
  | { readonly kind: 'sphere'; readonly radius: number }
  /** Standing on y = 0 with capped ends; with `top` other than `radius` a (blunted) cone. */
  | { readonly kind: 'cylinder'; readonly radius: number; readonly height: number; readonly top?: number }
  /** A gabled roof or tent: ridge along z, base y = 0, `size` = width, height of the ridge, length. `ridge` moves it in x (a wedge at ± half width). */
  | { readonly kind: 'roof'; readonly size: Vec; readonly ridge?: number }
  /** Any convex body: the points with n·p ≤ d for each plane [nx, ny, nz, d]. `bounds` = half sizes about the origin. */
  | {
      readonly kind: 'convex';
      readonly planes: readonly (readonly [number, number, number, number])[];
      readonly bounds: Vec;
    }
  /** A height field over ± size/2 in x and z, sampled at (cells + 1)² nodes, bilinear in between. */
  | {
      readonly kind: 'terrain';
      readonly size: readonly [number, number];
      readonly cells: readonly [number, number];
      readonly height: (x: number, z: number) => number;
    };

export interface Body {
  readonly shape: Shape;
  readonly material: Material;
  /** Where the body's origin stands. Default (0, 0, 0). */
  readonly at?: Vec;
  /** Turn in degrees about x, y, z: applied as Ry·Rx·Rz (roll first, heading last). */
  readonly turn?: Vec;
  /** Name of the thing the body belongs to; bodies of one thing (a shed, a jetty) share it. */
  readonly thing?: string;
  /** Whether it throws a shadow; by default all but glowing bodies do. */
  readonly shadow?: boolean;
}

export type Light =
  /** From far away: `towards` points to the light, `size` is the disc's angular diameter in degrees. */
  | {
      readonly kind: 'sun';
      readonly towards: Vec;
      readonly colour: Rgb;
      readonly size?: number;
      readonly samples?: number;
    }
  /** A ball of light: `colour` holds at distance `reference`, then inverse square. */
  | {
      readonly kind: 'lamp';
      readonly at: Vec;
      readonly colour: Rgb;
      readonly reference: number;
      readonly radius?: number;
      readonly samples?: number;
      /** Limits the lamp to a cone (stage light): full inside `inner`, nothing outside `outer`, half-angles in degrees. */
      readonly cone?: { readonly towards: Vec; readonly inner: number; readonly outer: number };
      /** Light scattered on the way by the air: strength of the halo (0 = none). */
      readonly halo?: number;
      /** Distance at which the lamp has faded to nothing, smoothly: saves the rays from everything beyond. */
      readonly reach?: number;
    };

/** The light from all around: `up` for surfaces that look up, `down` for those that look down. */
export interface Fill {
  readonly up: Rgb;
  readonly down: Rgb;
  /** Ambient occlusion by a few rays: `strength` 0…1 of the fill goes where every ray is blocked within `reach`. */
  readonly occlusion?: { readonly samples: number; readonly reach: number; readonly strength: number };
}

/** Aerial perspective: transmittance exp(−density·∫exp(−(y − base)/height)), towards the air's colour. */
export interface Haze {
  readonly density: number;
  /** Scale height of the haze; leave out for haze of one density. */
  readonly height?: number;
  readonly base?: number;
  /** Colour of the air for a viewing direction (unit vector). */
  readonly colour: SkyColour;
}

/** Writes the linear light from a direction (unit vector) into `out`. */
export type SkyColour = (dx: number, dy: number, dz: number, out: Float64Array) => void;

export interface Scene {
  readonly camera: Camera;
  readonly bodies: readonly Body[];
  readonly lights: readonly Light[];
  readonly fill: Fill;
  readonly sky: SkyColour;
  readonly haze?: Haze;
}

export interface RenderOptions {
  /** Sub-samples per pixel and axis for the colour and the other continuous passes (1 = centre only). Default 1. */
  readonly supersample?: number;
  /** Rows to render, from `first` up to, without, `last`. Default all. */
  readonly rows?: readonly [first: number, last: number];
  /** Factor on the sample counts of lights and occlusion. Default 1. */
  readonly quality?: number;
  /** Called now and then with the share done, 0…1. */
  readonly onProgress?: (share: number) => void;
}

/**
 * What is known of every pixel. Row-major; three-channel passes are interleaved, linear, without NaN.
 *
 * With one sample a pixel:
 * colour = ((reflectance·(key + fill))·(1 − mirrorShare) + mirror + emissive)·clear + air, and sky where nothing is hit.
 */
export interface Passes {
  readonly width: number;
  /** Height of this part; `firstRow` is its place in a picture of `fullHeight` rows. */
  readonly height: number;
  readonly firstRow: number;
  readonly fullHeight: number;
  readonly colour: Float32Array;
  readonly reflectance: Float32Array;
  /** Σ kᵢKᵢ that arrives. */
  readonly key: Float32Array;
  /** Σ Kᵢ that would arrive at this place unobstructed and facing each light (distance and cone counted). */
  readonly keyFull: Float32Array;
  /** Luminance of `key` by that of `keyFull`, 0 (shade) to 1 (lit, facing): shadow times Lambert's cosine. */
  readonly k: Float32Array;
  /** Share of the keys that is not cast away by other bodies, 0 (in cast shadow) to 1, cosine left out. */
  readonly shadow: Float32Array;
  readonly fill: Float32Array;
  /** World normal, facing the eye. */
  readonly normal: Float32Array;
  /** Distance from the eye; 0 for sky. */
  readonly depth: Float32Array;
  /** World position of the centre sample. */
  readonly position: Float32Array;
  /** Index into the scene's bodies, −1 for sky (centre sample). */
  readonly body: Int32Array;
  /** Index of the material in order of first use, −1 for sky (centre sample). */
  readonly surface: Int32Array;
  /** Direction of the surface's grain on the picture (unit vector, x right, y down; 0 0 where there is none). */
  readonly along: Float32Array;
  readonly emissive: Float32Array;
  /** 1 where the eye sees the sky (centre sample). */
  readonly sky: Uint8Array;
  readonly mirrorShare: Float32Array;
  /** Mirrored light that is added, already weighted with the share. */
  readonly mirror: Float32Array;
  /** Share of the light that the air lets through. */
  readonly clear: Float32Array;
  /** Light of the air in front of the surface, already weighted. */
  readonly air: Float32Array;
  /** Names by material index, and the thing (or empty) by body index. */
  readonly surfaceNames: readonly string[];
  readonly things: readonly string[];
}
