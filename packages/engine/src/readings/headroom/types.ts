/** How far an edit can go in each direction before a further 1 % of the area clips; null = as far as one likes. */
export interface Directions {
  /** Stops of exposure until channels clip. */
  exposureUp: number | null;
  /** Stops until darks fall under L* 2. */
  exposureDown: number | null;
  /** Amount of the contrast step. */
  contrast: number | null;
  /** Factor on chroma. */
  chromaGain: number | null;
  /** Degrees; 180 = all the way round. */
  hueTurnLeft: number;
  hueTurnRight: number;
  /** Mired along the daylight locus. */
  warmer: number | null;
  cooler: number | null;
}

export interface HeadroomValue extends Directions {
  /** Share of the area at any end: closed darks or lights, a channel at its limit, the edge of the gamut. */
  endsShare: number;
  darksShare: number;
  lightsShare: number;
  /** Share at the edge of the gamut or with a channel at its limit, neither dark nor light. */
  coloursShare: number;
  /** Share of the area with gradients so even that steps of 8 bits could show when they are stretched. */
  smoothShare: number;
  /** Factor by which those gradients can be stretched before a step passes ΔL* 0.5; null when there are none. */
  smoothStretch: number | null;
}
