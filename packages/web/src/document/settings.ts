/** What the artist chose about the surroundings; kept in the browser. */
export interface Settings {
  readonly wall: Wall;
  readonly ground: Ground;
  /** Keys without Ctrl or Cmd do something (WCAG 2.1.4: they can be switched off). */
  readonly singleKeys: boolean;
  /** The cautions were read once. */
  readonly cautioned: boolean;
}

export type Wall = 'dark' | 'middle' | 'paper';
export type Ground = 'dark' | 'paper';

const DEFAULTS: Settings = { wall: 'middle', ground: 'dark', singleKeys: true, cautioned: false };

/** The settings in a kept text; whatever is missing or odd in it is as it was at the first start. */
export function settingsOf(text: string | null): Settings {
  try {
    const kept = (JSON.parse(text ?? '{}') ?? {}) as Partial<Settings>;
    return {
      wall: kept.wall === 'dark' || kept.wall === 'paper' ? kept.wall : DEFAULTS.wall,
      ground: kept.ground === 'paper' ? 'paper' : DEFAULTS.ground,
      singleKeys: kept.singleKeys !== false,
      cautioned: kept.cautioned === true,
    };
  } catch {
    return DEFAULTS;
  }
}
