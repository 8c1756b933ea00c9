/**
 * The ferry landing as bodies, lights and air. Metres; the eye looks along −z over water at y = 0.
 *
 * Composed, not only built: the jetty leads from the lower left to the lit door, the sheds stand dark against
 * the sky, mud banks frame the water that holds their reflection.
 */
import { type Body, hash01, type Light, type Scene, type SkyColour, type Vec } from '../scene/index.ts';
import { doorway, jetty, landing, shedsOf } from './built.ts';
import { groundBodies, groundOf, NEAR_MID } from './ground.ts';
import { boat, farPoles, figure, nets } from './loose.ts';
import { FILL, KEY, materialsOf } from './materials.ts';
import { smooth, strength } from './numbers.ts';
import { at, DECK } from './parts.ts';
import { inShed, inShedBox, shedBodies } from './sheds.ts';
import { skyOf } from './sky.ts';

/** What the seed decides, so that other evenings and tides can be painted. */
export interface PlaceOptions {
  readonly seed: number;
  /** Width of the picture by its height. */
  readonly aspect: number;
}

/** The scene with the places that the painter needs to know. */
export interface Place {
  readonly scene: Scene;
  /** The lit door and the lamp on the jetty, as points in the world. */
  readonly focus: Vec;
  readonly lamp: Vec;
  readonly doorLamp: Vec;
  /** Wide angle: tangent of half the horizontal view, and the horizon's place as a share of the height. */
  readonly tan: number;
  readonly horizon: number;
  readonly eye: Vec;
  readonly aspect: number;
}

const EYE = 2.35;
const TAN = 0.52;
const HORIZON = 0.545;
/** Builds the landing. */
export function placeOf({ seed, aspect }: PlaceOptions): Place {
  const vary = (k: number) => hash01(k, 17, 0, seed) - 0.5;
  const tide = 0.03 * vary(1);
  const ground = groundOf(seed, tide);
  const wet = (x: number, z: number) => {
    const h = ground(x, -z - NEAR_MID);
    return 0.25 + 0.75 * (1 - smooth(0.005, 0.13, h));
  };
  const m = materialsOf(seed, wet);
  const sheds = shedsOf(m);
  const [, middle] = sheds;
  const focus = inShed(middle!, -0.1, 1, middle!.length / 2 + 0.1);
  const doorLamp = inShed(middle!, -1.25, 2.12, middle!.length / 2 + 0.5);
  const headLamp: Vec = at(2.55, DECK + 2.05, 20.6);
  const bodies: Body[] = [
    ...groundBodies(m, ground, seed),
    ...sheds.flatMap(shedBodies),
    ...doorway(m, middle!, doorLamp),
    ...figure(m, inShed(middle!, -0.22, 0, middle!.length / 2 + 0.95)),
    ...landing(m, seed),
    ...jetty(m, headLamp, seed),
    ...boat(m, seed),
    ...nets(m, ground, seed),
    ...farPoles(m, seed),
  ];
  const third = sheds[0]!;
  const wall = third.length / 2;
  bodies.push(
    inShedBox(third, m.window!, [0.62, 0.62, 0.04], 0.75, 1.5, wall + 0.02),
    inShedBox(third, m.windowDim!, [0.62, 0.2, 0.02], 0.75, 1.71, wall + 0.045),
    inShedBox(third, m.trim!, [0.05, 0.62, 0.05], 0.75, 1.5, wall + 0.05),
    inShedBox(third, m.trim!, [0.62, 0.045, 0.05], 0.75, 1.52, wall + 0.05),
    inShedBox(third, m.trim!, [0.82, 0.09, 0.1], 0.75, 1.15, wall + 0.05),
    // A barred door and a lean of spars against the wall.
    inShedBox(third, m.door!, [1.3, 1.95, 0.07], -0.85, 0.98, wall + 0.03),
    inShedBox(third, m.trim!, [1.3, 0.1, 0.06], -0.85, 0.5, wall + 0.08),
    inShedBox(third, m.trim!, [1.3, 0.1, 0.06], -0.85, 1.5, wall + 0.08),
    inShedBox(third, m.trim!, [0.07, 2.7, 0.07], 1.55, 1.25, wall + 0.25, 0, 6),
    inShedBox(third, m.trim!, [0.06, 2.4, 0.06], 1.75, 1.15, wall + 0.25, 0, -5),
  );
  const sky = skyOf({ seed, glowAt: -13 + 6 * vary(2), clouds: 0.9 + 0.3 * vary(3) });
  const lights: Light[] = [
    {
      kind: 'sun',
      towards: [-0.85, 0.36, 0.2],
      colour: strength(KEY, 2),
      size: 12,
      samples: 6,
    },
    { kind: 'lamp', at: doorLamp, colour: strength(KEY, 0.72), reference: 1, radius: 0.16, samples: 6 },
    { kind: 'lamp', at: headLamp, colour: strength(KEY, 1.9), reference: 1, radius: 0.14, samples: 6 },
    // The lit room behind the door, as a wide soft source just outside it.
    {
      kind: 'lamp',
      at: inShed(middle!, 0, 1.15, middle!.length / 2 + 0.14),
      colour: strength(KEY, 0.66),
      reference: 1,
      radius: 0.3,
      samples: 6,
      reach: 9,
    },
  ];
  const fov = (2 * Math.atan(TAN / aspect) * 180) / Math.PI;
  const scene: Scene = {
    camera: { eye: [0, EYE, 0], target: [0, EYE, -10], fov, shift: [0, HORIZON - 0.5] },
    bodies,
    lights,
    fill: {
      up: FILL,
      down: strength(FILL, 0.3),
      occlusion: { samples: 7, reach: 2.2, strength: 0.9 },
    },
    sky,
    haze: { density: 0.0008, height: 7, base: 0, colour: mistOf(sky) },
  };
  return { scene, focus, lamp: headLamp, doorLamp, tan: TAN, horizon: HORIZON, eye: [0, EYE, 0], aspect };
}

/** Mist has the colour of the low sky in its direction, a little less of the band's; kept by azimuth. */
function mistOf(sky: SkyColour): SkyColour {
  const steps = 128;
  const table = new Float64Array((steps + 1) * 3);
  const low = new Float64Array(3);
  const high = new Float64Array(3);
  for (let i = 0; i <= steps; i++) {
    const t = (i / steps - 0.5) * Math.PI;
    sky(Math.sin(t), 0.035, -Math.cos(t), low);
    sky(Math.sin(t), 0.16, -Math.cos(t), high);
    for (let c = 0; c < 3; c++) table[i * 3 + c] = 0.5 * low[c]! + 0.42 * high[c]!;
  }
  return (dx, _dy, dz, out) => {
    const t = Math.min(1, Math.max(0, Math.atan2(dx, -dz) / Math.PI + 0.5)) * steps;
    const i = Math.min(steps - 1, Math.floor(t));
    for (let c = 0; c < 3; c++) {
      const from = table[i * 3 + c]!;
      out[c] = from + (table[i * 3 + 3 + c]! - from) * (t - i);
    }
  };
}
