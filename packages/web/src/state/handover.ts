import type { HandoverSettings, PresetName } from '@halflight/engine';
import { PRESETS } from '@halflight/engine';
import { create } from 'zustand';
import type { ChosenProfile, SeenCalming, SeenLoss } from '../picture/handover-desk.ts';

/** How the picture leaves, as it was last chosen. */
interface HandoverState {
  readonly settings: HandoverSettings;
  /** Bytes of the profile that the settings name. */
  readonly profile: ChosenProfile;
  /** What the space loses; null while it is not known. */
  readonly loss: SeenLoss | null;
  /** What would calm it; null before it was asked for. */
  readonly calming: SeenCalming | null;
  /** True while the lost places are shown on the picture. */
  readonly shown: boolean;
}

export const useHandover = create<HandoverState>(() => ({
  settings: PRESETS.screen,
  profile: null,
  loss: null,
  calming: null,
  shown: false,
}));

export const setHandover = useHandover.setState;

/** Changes the settings. */
export function settle(change: Partial<HandoverSettings>): void {
  const { settings } = useHandover.getState();
  setHandover({ settings: { ...settings, ...change } });
}

/** Begins anew from a preset; the texts beside the pixels stay. */
export function takePreset(name: PresetName): void {
  const { metadata } = useHandover.getState().settings;
  setHandover({ settings: { ...PRESETS[name], metadata }, profile: null });
}
