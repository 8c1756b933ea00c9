/**
 * Where an arrow key moves a mark over the picture, in shares of its sides: by a fiftieth, with Shift by a tenth,
 * and never beyond the picture. Null for any other key.
 */
export function arrowed(
  { key, shiftKey }: { readonly key: string; readonly shiftKey: boolean },
  [x, y]: readonly [number, number],
): [number, number] | null {
  const by = shiftKey ? 0.1 : 0.02;
  const steps: Record<string, [number, number]> = {
    ArrowLeft: [-by, 0],
    ArrowRight: [by, 0],
    ArrowUp: [0, -by],
    ArrowDown: [0, by],
  };
  const step = steps[key];
  if (!step) return null;
  const inside = (value: number): number => Math.min(0.999, Math.max(0, value));
  return [inside(x + step[0]), inside(y + step[1])];
}
